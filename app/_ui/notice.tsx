/** What the program has to say that is not about danger: for that there is Caution. */
import type { ReactNode } from "react";

const words = { note: "Note", done: "Done", problem: "Not done" } as const;

export function Notice({
  kind = "note",
  title,
  children,
  live,
}: {
  kind?: keyof typeof words;
  /** Replaces the word that otherwise stands for the kind. */
  title?: string;
  children?: ReactNode;
  /** Read aloud when it appears; problems always are. */
  live?: boolean;
}) {
  return (
    <div
      className={`notice notice-${kind}`}
      role={kind === "problem" ? "alert" : live ? "status" : undefined}
    >
      <p className="notice-title">{title ?? words[kind]}</p>
      {children}
    </div>
  );
}
