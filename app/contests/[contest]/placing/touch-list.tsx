"use client";
/** What the zone that is drawn does to what it must not touch. */
import { SafetySign } from "@/app/_ui/caution";
import { conflictWords } from "@/app/_ui/zones/conflict-words";
import type { UnitSystem } from "@/lib/units";
import type { Conflict } from "@/lib/zones";
import styles from "./placing.module.css";
import type { Feature } from "./trial";

export function TouchList({
  conflicts,
  features,
  saved,
  system,
}: {
  conflicts: readonly Conflict[];
  features: readonly Feature[];
  saved: boolean;
  system: UnitSystem;
}) {
  const names = new Map(features.map(({ id, name }) => [id, name]));
  return (
    <section aria-labelledby="touches">
      <h2 id="touches" className={styles.near}>
        What {saved ? "its zone" : "its zone there"} touches
      </h2>
      {conflicts.length === 0 ? (
        <p>
          No protected feature on this map is inside it or nearer than its stand-off.
          {!saved && " Its own sheet is computed once it is saved, and counts then."}
        </p>
      ) : (
        <ul className={styles.touches}>
          {conflicts.map((found) => (
            <li key={found.featureId}>
              <SafetySign kind={found.touches ? "prohibition" : "warning"} size={26} />
              <span>
                <strong>{names.get(found.featureId)}</strong>: the zone {conflictWords(found, system)}.
              </span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
