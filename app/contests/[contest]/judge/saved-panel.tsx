"use client";
import type { RefObject } from "react";
import { otherSystem } from "@/app/_ui/both-units";
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { useUnits } from "@/app/_ui/units";
import type { FixAnswer } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import type { JudgeShot } from "./entry";
import styles from "./judge.module.css";
import type { KeptEntry } from "./outbox";

/** "132.44 m (434.51 ft, ± 0.14 m)", or the outcome when nothing counts. */
export function answerWords(fix: FixAnswer, system: UnitSystem): string {
  return fix.mark === null ? fix.outcome : `${resultWords(fix, system)} (${precisely(fix, system)})`;
}

/** The mark in the other units, and how well it is known. */
function precisely({ mark, uncertainty }: FixAnswer, system: UnitSystem): string {
  if (mark === null) return "";
  const text = (value: number, units: UnitSystem) => formatQuantity(value, "distance", units, { digits: 2 });
  const other = text(mark, otherSystem(system));
  return uncertainty === null ? other : `${other}, ± ${text(uncertainty, system)}`;
}

/** The short form, for lists. */
export function resultWords(fix: FixAnswer | null, system: UnitSystem): string {
  if (fix === null) return "no entry";
  return fix.mark === null ? fix.outcome : formatQuantity(fix.mark, "distance", system, { digits: 2 });
}

export function SavedPanel({
  heading,
  entry,
  answer,
  waiting,
  next,
  round,
  moving,
  onNext,
  onCorrect,
  onMove,
}: {
  heading: RefObject<HTMLHeadingElement | null>;
  entry: KeptEntry;
  answer: FixAnswer | null;
  waiting: KeptEntry | null;
  next: JudgeShot | null;
  round: number;
  /** Whether another shot is being chosen for it. */
  moving: boolean;
  onNext: () => void;
  onCorrect: () => void;
  onMove: () => void;
}) {
  const system = useUnits();
  return (
    <section
      className={answer && !answer.held ? styles.saved : styles.kept}
      aria-label="What became of the entry"
    >
      <h2 ref={heading} tabIndex={-1}>
        {answer
          ? answer.held
            ? "Arrived; waits to be confirmed"
            : "Saved"
          : waiting?.refused
            ? "Kept on this phone, not taken by the server yet"
            : "Kept on this phone, not sent yet"}
      </h2>
      <p className={styles.big}>
        {answer ? resultWords(answer, system) : entry.result}
        {answer && answer.mark !== null && <small>{precisely(answer, system)}</small>}
      </p>
      <p>{entry.title}</p>
      {answer?.held && (
        <p>
          This badge has ended. What you had seen before counts once the organiser or the safety officer has
          confirmed it; nothing is lost meanwhile.
        </p>
      )}
      {answer?.flags.map(({ code, text }) => (
        <Caution key={code} title="entered all the same">
          <p>{text}</p>
        </Caution>
      ))}
      {next ? (
        <>
          <p>
            Next: <strong>{`${next.entrantNumber} ${next.entrantName}`}</strong> with {next.machineName},
            firing point {next.firingPointNumber}.
          </p>
          <p className="button-row">
            <Button look="main" wide onClick={onNext}>
              Next: {next.entrantNumber} {next.entrantName}
            </Button>
          </p>
        </>
      ) : (
        <p>Every shot of round {round} has its entry.</p>
      )}
      <p className="button-row">
        {answer && !answer.held && <Button onClick={onCorrect}>Look at this entry again</Button>}
        {/* What may be on its way cannot be taken back before the server has answered. */}
        {!answer?.held && (answer || !waiting?.tried) && entry.body.replacesId === undefined && (
          <Button onClick={onMove} aria-expanded={moving}>
            It was another shot
          </Button>
        )}
      </p>
      {moving && (
        <p role="status">
          Choose the shot below; nothing is typed again.
          {answer && " The entry that the server has stays in the record until this shot’s own corrects it."}
        </p>
      )}
    </section>
  );
}
