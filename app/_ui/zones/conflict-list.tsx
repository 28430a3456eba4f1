"use client";
import type { ZoneProperties } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
/** Every protected feature that a zone touches or comes too near to, in words. */
import { SafetySign } from "../caution";
import { longDay } from "../words";
import { conflictWords } from "./conflict-words";
import { MissingZones } from "./missing-zones";
import { kindTitle } from "./scene-of";
import { zoneless } from "./zoneless";
import styles from "./zones.module.css";

/** What the paper on file allows, and until when; who signed it stands in the register alone. */
function agreementWords({ kind, agreed }: ZoneProperties["conflicts"][number]): string {
  const what = kind === "overhead-line" ? "The owner’s written agreement" : "The agreement to close it";
  const until = agreed?.expiresOn ? `and holds until ${longDay(agreed.expiresOn)}` : "and names no last day";
  return `${what} is on file ${until}; what it asks for must be kept.`;
}

export function ConflictList({
  zones,
  loosened = [],
  stale = false,
  decides = "The safety officer decides.",
  system,
}: {
  zones: readonly ZoneProperties[];
  /** Features that are to be protected less than their kind is by itself. */
  loosened?: readonly { id: string; name: string; allowance?: string | null | undefined }[];
  /** Whether something changed since. */
  stale?: boolean;
  /** The last word below conflicts: whose it is. */
  decides?: string;
  system: UnitSystem;
}) {
  const found = zones
    .map((zone) => ({ zone, conflicts: zone.conflicts.filter(({ inConflict }) => inConflict) }))
    .filter(({ conflicts }) => conflicts.length > 0);
  const agreed = zones.flatMap((zone) =>
    zone.conflicts.filter((conflict) => conflict.agreed !== null).map((conflict) => ({ zone, conflict })),
  );
  const drawn = zones.filter(({ exclusion }) => exclusion !== null);
  const missing = zoneless(zones.map((zone) => ({ ...zone, name: zone.machineName })));
  return (
    <section aria-labelledby="conflicts-title" className={styles.conflicts}>
      <h2 id="conflicts-title">What the zones touch</h2>
      {stale && (
        <p role="status">
          <strong>Something has changed: this is from before, and is being worked out anew.</strong>
        </p>
      )}
      <MissingZones machines={missing} what="This list" />
      {found.length === 0 ? (
        <p>
          {drawn.length === 0
            ? "No zone is drawn yet."
            : `No protected feature on this map is inside ${missing.length > 0 ? "one of the zones that are drawn" : "a zone"} or nearer than its stand-off without an agreement on file. That covers what is on the map and what the zones assume; nothing else.`}
        </p>
      ) : (
        <ul>
          {found.map(({ zone, conflicts }) => (
            <li key={zone.machineId}>
              <strong>{zone.machineName}</strong> ({zone.entrantName}, firing point {zone.firingPointNumber})
              <ul>
                {conflicts.map((conflict) => (
                  <li key={conflict.featureId} className={styles.conflict}>
                    <SafetySign kind={conflict.touches ? "prohibition" : "warning"} size={26} />
                    <span>
                      <strong>{conflict.name}</strong> ({kindTitle(conflict.kind).toLowerCase()}): the zone{" "}
                      {conflictWords(conflict, system)}.
                    </span>
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      )}
      {loosened.length > 0 && (
        <>
          <h3>Protected less than their kind is by itself</h3>
          <ul>
            {loosened.map(({ id, name, allowance }) => (
              <li key={id} className={styles.conflict}>
                <SafetySign kind="warning" size={26} />
                <span>
                  <strong>{name}</strong>:{" "}
                  {allowance
                    ? `the safety officer allows it: ${allowance}`
                    : "asked for; until the safety officer allows it, its kind’s rule and stand-off hold."}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
      {agreed.length > 0 && (
        <>
          <h3>Agreed in writing</h3>
          <ul>
            {agreed.map(({ zone, conflict }) => (
              <li key={`${zone.machineId} ${conflict.featureId}`} className={styles.conflict}>
                <SafetySign kind="warning" size={26} />
                <span>
                  <strong>{conflict.name}</strong> ({kindTitle(conflict.kind).toLowerCase()}): the zone of{" "}
                  {zone.machineName} {conflictWords(conflict, system)}. {agreementWords(conflict)}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
      {found.length > 0 && (
        <p>
          A zone that touches something protected means: do not fire like this. Turn or move the machine,
          close or clear the place, or throw less. {decides}
        </p>
      )}
    </section>
  );
}
