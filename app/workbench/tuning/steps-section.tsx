"use client";
import type { HazardRequest } from "@/lib/throw";
import { tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import styles from "./tuning.module.css";
import { type Asker, useNewest } from "./use-answers";
import { stepSentence, UNTOLD } from "./words";

/** ms that the sliders must rest: so many sentences that change under a thumb are read by nobody. */
const PAUSE = 150;

/** What a plain step of each number does, the largest effect first. */
export function StepsSection({
  asker,
  trial,
  system,
}: {
  asker: Asker;
  trial: HazardRequest;
  system: UnitSystem;
}) {
  const { answer, stale, failure } = useNewest(asker, { ask: "steps", request: trial, system }, PAUSE);
  const told = answer?.filter((step) => tuning.effectOf(step) >= UNTOLD) ?? [];
  const untold = answer?.filter((step) => tuning.effectOf(step) < UNTOLD) ?? [];
  return (
    <section aria-labelledby="steps-title">
      <h2 id="steps-title">What a step of each number does</h2>
      <p>
        To the throw as meant, all others as the sliders stand: what matters most comes first. Measure that
        best.
      </p>
      {failure ? <p>{failure}</p> : null}
      {answer && answer.length === 0 ? <p>Nothing is thrown as meant, so no step can be told.</p> : null}
      <ol className={styles.steps} aria-busy={stale} aria-label="Steps, by effect">
        {told.map((step) => (
          <li key={step.name}>{stepSentence(step, system)}</li>
        ))}
      </ol>
      {untold.length > 0 ? (
        <p>
          Hardly anything comes of a step of: {untold.map(({ label }) => label.toLowerCase()).join(", ")}.
        </p>
      ) : null}
    </section>
  );
}
