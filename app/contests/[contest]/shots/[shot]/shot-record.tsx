"use client";
/** Everything that was ever entered or ruled about one shot: nothing is overwritten, so everything can be shown. */
import Link from "next/link";
import { bothUnits } from "@/app/_ui/both-units";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { bearingText, coordinates, DECISION_WORDS, instantText } from "@/app/_ui/words";
import type { FixAnswer, ShotHistory } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "./shot.module.css";

export function ShotRecord({ slug, history }: { slug: string; history: ShotHistory }) {
  const system = useUnits();
  const { shot, fixes, rulings, firingPoint } = history;
  const ruling = rulings.reduce<(typeof rulings)[number] | null>(
    (newest, one) => (!newest || one.sequence > newest.sequence ? one : newest),
    null,
  );
  const replaced = new Set(fixes.map(({ replacesId }) => replacesId));
  return (
    <>
      <p>
        {shot.machineName}, revision {shot.revision}, from firing point {firingPoint.number} on bearing{" "}
        {bearingText(shot.bearing)}.
      </p>
      {ruling && (
        <Notice title={`Ruling: ${DECISION_WORDS[ruling.decision]}`}>
          <p>
            {ruling.reason} ({ruling.by}, {instantText(ruling.createdAt)})
          </p>
        </Notice>
      )}
      <h2>Entries, newest first</h2>
      {fixes.length === 0 ? (
        <p>Nothing is entered for this shot yet.</p>
      ) : (
        <ol className={styles.entries}>
          {fixes.map((fix) => (
            <li key={fix.id} className={replaced.has(fix.id) ? styles.old : styles.counts}>
              <Entry fix={fix} counts={!replaced.has(fix.id)} system={system} />
            </li>
          ))}
        </ol>
      )}
      {rulings.length > 0 && (
        <>
          <h2>Rulings</h2>
          <ul>
            {rulings.map((one) => (
              <li key={one.id}>
                {DECISION_WORDS[one.decision]}: {one.reason} ({one.by}, {instantText(one.createdAt)},
                scorebook entry {one.sequence})
              </li>
            ))}
          </ul>
        </>
      )}
      <p>
        <Link href={`/contests/${slug}/scorebook`}>Scorebook</Link> ·{" "}
        <Link href={`/contests/${slug}/standings`}>Standings</Link>
      </p>
    </>
  );
}

function Entry({ fix, counts, system }: { fix: FixAnswer; counts: boolean; system: UnitSystem }) {
  const distance = (value: number, digits = 2) => bothUnits(value, "distance", system, { digits });
  const { input } = fix;
  return (
    <>
      <p className={styles.mark}>
        {fix.mark === null ? fix.outcome : distance(fix.mark)}
        <span>{counts ? " counts" : " was replaced"}</span>
      </p>
      <dl>
        <dt>Entered</dt>
        <dd>
          by {fix.by}, {instantText(fix.createdAt)}
        </dd>
        {fix.observedAt !== fix.createdAt && (
          <>
            <dt>Seen</dt>
            <dd>{instantText(fix.observedAt)}</dd>
          </>
        )}
        {fix.reason && (
          <>
            <dt>Why the earlier entry was corrected</dt>
            <dd>{fix.reason}</dd>
          </>
        )}
        {input.outcome === "landed" && (
          <>
            <dt>Measured</dt>
            <dd>
              {input.method === "bearing-distance"
                ? `${distance(input.distance)} on bearing ${bearingText(input.bearing)} ${input.north === "magnetic" ? `magnetic (declination ${input.declination}°)` : "true"}`
                : input.method === "position"
                  ? `position ${coordinates(input)}`
                  : input.method.replaceAll("-", " ")}
            </dd>
            <dt>Landing point</dt>
            <dd>
              {fix.latitude !== null && fix.longitude !== null
                ? coordinates({ latitude: fix.latitude, longitude: fix.longitude })
                : "–"}
              {fix.uncertainty !== null &&
                `, the mark within ± ${formatQuantity(fix.uncertainty, "distance", system, { digits: 2 })} (k = 2)`}
            </dd>
          </>
        )}
        {fix.flags.map(({ code, text }) => (
          <div key={code}>
            <dt>Looked odd</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
