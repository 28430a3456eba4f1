/** How the film names instants, and what is going on at one. */
import { instantText } from "@/app/_ui/hazard-sheet/words";
import type { Film, FilmInstant, FilmMark } from "@/lib/throw";

export const MARK_WORDS: Record<FilmMark["of"], string> = {
  trigger: "Trigger",
  "lift-off": "Lift-off",
  bending: "Most bending",
  pivot: "Most on the pivot",
  tension: "Most sling tension",
  release: "Slip-off",
  stop: "Arm at its stop",
  apex: "Apex",
  landing: "Landing",
  end: "End",
};

const DOING_WORDS = {
  trough: "the projectile slides on the trough",
  swing: "the projectile swings on a taut sling",
  slack: "the sling is slack",
  cup: "the projectile is pushed in its cup",
  empty: "the machine swings on empty",
  stopped: "the arm stands at its stop",
  unfollowed: "the machine is followed no longer",
} as const;

const SLUNG = new Set(["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"]);

/** @param cup whether it lies in a cup: only a loop slips off */
export const markWords = (of: FilmMark["of"], kind: string, cup: boolean): string =>
  of === "release" && (cup || !SLUNG.has(kind)) ? "Release" : MARK_WORDS[of];

/** An instant of a film; one that begins before the trigger, or has none, counts below zero. */
export const momentText = (seconds: number): string => instantText(seconds).replace("-", "−");

/** From when the instants of a film are counted. */
export function zeroWords({ request, period }: Film): string {
  if (period === null) return "after the trigger";
  const { machine } = request;
  return machine.kind === "spinning-arm" && machine.plane === "vertical"
    ? "after the arm points straight up"
    : "after the release";
}

/** One clause, no capital, no stop. */
export function doingWords({ machine, projectile }: FilmInstant): string {
  const flight = projectile.state === "landed" ? "the projectile has landed" : "the projectile flies";
  if (!machine) return projectile.state === "held" ? "the machine drives the projectile" : flight;
  return projectile.state === "held"
    ? DOING_WORDS[machine.doing]
    : `${flight}, ${DOING_WORDS[machine.doing]}`;
}

/** Which way the long arm points. */
export function armWords(degrees: number): string {
  const radians = (degrees * Math.PI) / 180;
  const up = (Math.asin(Math.sin(radians)) * 180) / Math.PI;
  const side = Math.cos(radians) < 0 ? "uprange" : "downrange";
  return `${Math.abs(up).toFixed(1)}° ${up < 0 ? "below" : "above"} the horizontal, ${side}`;
}
