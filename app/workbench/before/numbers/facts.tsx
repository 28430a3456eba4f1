/** What came out: label and text, what falls short with its sign, and what is still missing. */
import type { ReactNode } from "react";
import { SafetySign } from "@/app/_ui/caution";
import styles from "../before.module.css";

export interface Fact {
  label: string;
  text: ReactNode;
  /** Falls short of what is asked for. */
  short?: boolean;
}

export function Facts({ facts }: { facts: readonly Fact[] }) {
  if (facts.length === 0) return null;
  return (
    <dl className={styles.facts}>
      {facts.map(({ label, text, short }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{short ? <Short>{text}</Short> : text}</dd>
        </div>
      ))}
    </dl>
  );
}

export function Short({ children }: { children: ReactNode }) {
  return (
    <strong className={styles.short}>
      <SafetySign kind="warning" size={18} />
      <span>{children}</span>
    </strong>
  );
}

/** Names what must be typed first; nothing when nothing is missing. */
export function Needs({ what, labels }: { what: string; labels: readonly string[] }) {
  if (labels.length === 0) return null;
  return (
    <p className={styles.needs}>
      {what} needs: {labels.map((label) => label.charAt(0).toLowerCase() + label.slice(1)).join(", ")}.
    </p>
  );
}

/** In place of whatever hangs on numbers that are typed and cannot be used: a default unseen would be a wrong answer. */
export function Told({ wrong, children }: { wrong: readonly string[]; children: ReactNode }) {
  if (wrong.length === 0) return children;
  return (
    <p className={styles.needs}>
      <Short>Nothing is told until this is put right or emptied: {wrong.join(", ")}.</Short>
    </p>
  );
}
