"use client";
/** The shot on the screen: whose it is, and what is entered of it. */
import Link from "next/link";
import type { RefObject } from "react";
import { Button } from "@/app/_ui/button";
import { useUnits } from "@/app/_ui/units";
import { bearingText, toConfirmWords } from "@/app/_ui/words";
import type { JudgeView } from "@/lib/api/contracts";
import type { JudgeShot } from "./entry";
import styles from "./judge.module.css";
import type { KeptEntry } from "./outbox";
import { answerWords } from "./saved-panel";

export function ShotUp({
  heading,
  view,
  shot,
  upId,
}: {
  heading: RefObject<HTMLHeadingElement | null>;
  view: JudgeView;
  shot: JudgeShot;
  upId: string | null;
}) {
  return (
    <section className={styles.up} aria-labelledby="shot-up">
      <p className={styles.where}>
        Round {shot.round}, shot {view.shots.indexOf(shot) + 1} of {view.shots.length}
        {shot.id === upId && <strong className={styles.upNow}>Up now</strong>}
      </p>
      <h2 id="shot-up" ref={heading} tabIndex={-1}>
        <span className={styles.number}>{shot.entrantNumber}</span> {shot.entrantName}
      </h2>
      <p>
        {shot.machineName}, firing point {shot.firingPointNumber}, bearing {bearingText(shot.bearing)}
      </p>
      {shot.toConfirm > 0 && <p>{toConfirmWords(shot.toConfirm)}: enter what you saw yourself.</p>}
    </section>
  );
}

export function EnteredPanel({
  slug,
  shot,
  kept,
  next,
  onCorrect,
  onNext,
}: {
  slug: string;
  shot: JudgeShot;
  /** An entry of this shot that only this phone has. */
  kept: KeptEntry | null;
  next: JudgeShot | null;
  /** Null for who may only look. */
  onCorrect: (() => void) | null;
  onNext: (id: string) => void;
}) {
  const system = useUnits();
  return (
    <section>
      {kept && (
        <p>
          On this phone, not at the server yet: <strong>{kept.result}</strong>.
        </p>
      )}
      {shot.fix && (
        <>
          <p>
            Entered: <strong>{answerWords(shot.fix, system)}</strong> by {shot.fix.by}.
          </p>
          <p className="button-row">
            {onCorrect && !kept && (
              <Button look="main" onClick={onCorrect}>
                Correct this entry
              </Button>
            )}
            <Link
              className="button button-plain"
              href={`/contests/${slug}/shots/${shot.id}`}
              prefetch={false}
            >
              History of this shot
            </Link>
          </p>
        </>
      )}
      {next && (
        <p>
          <Button onClick={() => onNext(next.id)}>
            To the shot without an entry: {next.entrantNumber} {next.entrantName}
          </Button>
        </p>
      )}
    </section>
  );
}
