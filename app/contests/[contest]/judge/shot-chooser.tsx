"use client";
/** Every shot of the round with what is entered, to choose another or to correct one; and the other rounds. */
import Link from "next/link";
import { useUnits } from "@/app/_ui/units";
import type { JudgeView } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import type { JudgeShot } from "./entry";
import styles from "./judge.module.css";

export function ShotChooser({
  slug,
  page = "judge",
  view,
  upId,
  chosen,
  kept,
  moving,
  words,
  onChoose,
}: {
  slug: string;
  /** Where the other rounds open. */
  page?: "judge" | "spot";
  view: JudgeView;
  upId: string | null;
  chosen: string | null;
  kept: ReadonlySet<string>;
  /** An entry is to be moved to the shot that is chosen. */
  moving: boolean;
  words: (shot: JudgeShot, system: UnitSystem) => string;
  onChoose: (id: string) => void;
}) {
  const system = useUnits();
  return (
    <section aria-labelledby="all-shots">
      <h2 id="all-shots">{moving ? "Which shot was it?" : `All shots of round ${view.round}`}</h2>
      <ol className={styles.shots}>
        {view.shots.map((shot) => (
          <li key={shot.id}>
            <button
              type="button"
              className={styles.shot}
              aria-current={shot.id === chosen ? "true" : undefined}
              onClick={() => onChoose(shot.id)}
            >
              <span>
                <strong>{shot.entrantNumber}</strong> {shot.entrantName}
                {shot.id === upId && <em> up now</em>}
              </span>
              <span className={styles.result}>
                {shot.fix === null && kept.has(shot.id) ? "kept here, not sent" : words(shot, system)}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {view.rounds.length > 1 && (
        <p className="button-row">
          {view.rounds
            .filter((round) => round !== view.round)
            .map((round) => (
              <Link
                key={round}
                className="button button-plain"
                href={`/contests/${slug}/${page}?round=${round}`}
                prefetch={false}
              >
                Round {round}
              </Link>
            ))}
        </p>
      )}
    </section>
  );
}
