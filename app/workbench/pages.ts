/** The pages of the workbench, in the order in which a team uses them. All of them are kept on the phone. */
export const PAGES = [
  { href: "/workbench", label: "Machine" },
  { href: "/workbench/film", label: "Film" },
  { href: "/workbench/tuning", label: "Tuning" },
  { href: "/workbench/strength", label: "What may break" },
  { href: "/workbench/stop", label: "Stop" },
  { href: "/workbench/yard", label: "Practice yard" },
  { href: "/workbench/trials", label: "Practice throws" },
  { href: "/workbench/before", label: "Before the day" },
  { href: "/workbench/share", label: "Share" },
] as const;
