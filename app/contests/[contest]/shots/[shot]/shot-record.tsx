"use client";
/** Everything that was ever entered or ruled about one shot: nothing is overwritten, so everything can be shown. */
import Link from "next/link";
import { bothUnits } from "@/app/_ui/both-units";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import {
  bearingText,
  coordinates,
  DECISION_WORDS,
  ENDED_WORDS,
  instantText,
  toConfirmWords,
} from "@/app/_ui/words";
import type { FixAnswer, ShotHistory } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { roundWords } from "../../standings/round-words";
import { measuredWords, type PegNames } from "./measured";
import styles from "./shot.module.css";

export function ShotRecord({ slug, history, pegs }: { slug: string; history: ShotHistory; pegs: PegNames }) {
  const system = useUnits();
  const { shot, fixes, held, rulings, protests, firingPoint, results } = history;
  const { result } = shot;
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
      <p>{roundWords(results)}</p>
      {shot.toConfirm > 0 && (
        <Notice title="To be confirmed">
          <p>{toConfirmWords(shot.toConfirm)}.</p>
        </Notice>
      )}
      {ruling && (
        <Notice title={`Ruling: ${DECISION_WORDS[ruling.decision]}`}>
          <p>
            {ruling.reason} ({ruling.by}, {instantText(ruling.createdAt)})
          </p>
        </Notice>
      )}
      {result.how === "disagree" && (
        <Notice title="Entries disagree">
          <p>{result.text}</p>
        </Notice>
      )}
      {result.how === "combined" && result.mark !== null && (
        <Notice title="Entries combined">
          <p>
            {result.fixIds.length} entries agree and give{" "}
            {bothUnits(result.mark, "distance", system, { digits: 2 })}
            {result.uncertainty !== null &&
              `, within ± ${formatQuantity(result.uncertainty, "distance", system, { digits: 2 })} (k = 2)`}
            .
          </p>
        </Notice>
      )}
      <h2>Entries, newest first</h2>
      {fixes.length === 0 ? (
        <p>Nothing is entered for this shot yet.</p>
      ) : (
        <ol className={styles.entries}>
          {fixes.map((fix) => (
            <li key={fix.id} className={result.fixIds.includes(fix.id) ? styles.counts : styles.old}>
              <Entry
                fix={fix}
                state={
                  replaced.has(fix.id)
                    ? "was replaced"
                    : !result.fixIds.includes(fix.id)
                      ? "does not count"
                      : result.how === "disagree"
                        ? "disagrees with another"
                        : "counts"
                }
                system={system}
                pegs={pegs}
              />
            </li>
          ))}
        </ol>
      )}
      {held.length > 0 && (
        <>
          <h2>Of ended badges, not counted</h2>
          <ol className={styles.entries}>
            {held.map((fix) => (
              <li key={fix.id} className={fix.held?.state === "rejected" ? styles.old : styles.held}>
                <Entry
                  fix={fix}
                  state={fix.held?.state === "rejected" ? "was rejected" : "waits to be confirmed"}
                  system={system}
                  pegs={pegs}
                />
              </li>
            ))}
          </ol>
        </>
      )}
      {protests.length > 0 && (
        <>
          <h2>Protests</h2>
          <ul>
            {protests.map((one) => (
              <li key={one.id}>
                {one.text} (entered by {one.by}, {instantText(one.createdAt)}
                {one.lateReason && `, taken in late: ${one.lateReason}`}).{" "}
                {one.ruling
                  ? `Answered: ${DECISION_WORDS[one.ruling.decision]}. ${one.ruling.reason} (${one.ruling.by})`
                  : "Not answered yet, so the result may change."}
              </li>
            ))}
          </ul>
        </>
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

function HeldWords({ held }: { held: NonNullable<FixAnswer["held"]> }) {
  return (
    <>
      <dt>Why it has to be confirmed</dt>
      <dd>
        Its badge {ENDED_WORDS[held.ended]} at {instantText(held.endedAt)}, before it arrived.
      </dd>
      {held.decision && (
        <>
          <dt>{held.state === "confirmed" ? "Confirmed" : "Rejected"}</dt>
          <dd>
            {held.decision.reason} ({held.decision.by}, {instantText(held.decision.at)}, scorebook entry{" "}
            {held.decision.sequence})
          </dd>
        </>
      )}
    </>
  );
}

function Entry({
  fix,
  state,
  system,
  pegs,
}: {
  fix: FixAnswer;
  state: string;
  system: UnitSystem;
  pegs: PegNames;
}) {
  const distance = (value: number, digits = 2) => bothUnits(value, "distance", system, { digits });
  const { input } = fix;
  return (
    <>
      <p className={styles.mark}>
        {fix.mark === null ? fix.outcome : distance(fix.mark)}
        <span> {state}</span>
      </p>
      <dl>
        <dt>Entered</dt>
        <dd>
          by {fix.by}, {instantText(fix.held?.arrivedAt ?? fix.createdAt)}
        </dd>
        {fix.held && <HeldWords held={fix.held} />}
        {fix.observedAt !== fix.createdAt && (
          <>
            <dt>Seen</dt>
            <dd>{instantText(fix.observedAt)}</dd>
          </>
        )}
        {fix.witness && (
          <>
            <dt>Written on paper first; witness</dt>
            <dd>{fix.witness}</dd>
          </>
        )}
        {fix.sector && (
          <>
            <dt>Landing sector</dt>
            <dd>
              {fix.sector.verdict === "too-close" ? "too close to its side line to call" : fix.sector.verdict}
              : {formatQuantity(Math.abs(fix.sector.aside), "distance", system, { digits: 2 })}{" "}
              {fix.sector.aside < 0 ? "outside" : "inside"}, known to ±{" "}
              {formatQuantity(fix.sector.uncertainty, "distance", system, { digits: 2 })} (k = 2)
            </dd>
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
            <dd>{measuredWords(input, system, pegs)}</dd>
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
