"use client";
/** Keys for a gloved thumb: figures, the units that the field takes, and on to the next field. */
import type { Dimension } from "@/lib/units";
import styles from "./keypad.module.css";

const FIGURES = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"] as const;

const UNITS: Partial<Record<Dimension, readonly string[]>> = {
  distance: ["m", "ft", "in"],
  length: ["m", "ft", "in"],
};

/** What stands in the field after a key. A unit gets its spaces; a sign comes first, wherever it is pressed. */
export function pressed(text: string, key: string): string {
  if (key === "⌫") return text.replace(/(\s*(m|ft|in)\s*|.)$/, "");
  if (key === "−") return text.startsWith("-") ? text.slice(1) : `-${text}`;
  if (/^[a-z]/.test(key)) return `${text.trimEnd()} ${key}${key === "ft" ? " " : ""}`;
  return text + key;
}

export function Keypad({
  label,
  dimension,
  text,
  onText,
  onNext,
}: {
  label: string;
  dimension: Dimension;
  text: string;
  onText: (text: string) => void;
  onNext: () => void;
}) {
  const key = (name: string, words?: string) => (
    <button
      key={name}
      type="button"
      className={styles.key}
      aria-label={words}
      // The field keeps the focus, and with it its place for the next key.
      onPointerDown={(event) => event.preventDefault()}
      onClick={() => onText(pressed(text, name))}
    >
      {name}
    </button>
  );
  return (
    <div className={styles.keypad} role="group" aria-label={`Keys for ${label}`}>
      <div className={styles.figures}>
        {FIGURES.map((name) => key(name, name === "⌫" ? "Delete the last" : undefined))}
      </div>
      <div className={styles.side}>
        {(UNITS[dimension] ?? []).map((unit) => key(unit))}
        {key("−", "Change the sign")}
        <button
          type="button"
          className={styles.next}
          onPointerDown={(event) => event.preventDefault()}
          onClick={onNext}
        >
          Next
        </button>
      </div>
    </div>
  );
}
