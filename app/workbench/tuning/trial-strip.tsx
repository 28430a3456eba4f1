"use client";
/** What the sliders throw, beside what the revision throws: always in sight while a thumb moves. */
import { useMemo } from "react";
import { distanceText, inWords } from "@/app/_ui/hazard-sheet/words";
import { requestProblem } from "@/app/_ui/machine-form/form/request";
import type { HazardRequest, tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import type { Trial } from "./questions";
import styles from "./tuning.module.css";
import { useAsker, useNewest } from "./use-answers";

type Distances = Pick<Trial, "nominal" | "forward" | "backward">;

export function TrialStrip({
  revision,
  trial,
  system,
}: {
  /** What the revision itself throws; null until it is known, or where nothing is. */
  revision: tuning.Evaluation | null;
  trial: HazardRequest;
  system: UnitSystem;
}) {
  const asker = useAsker();
  const now = useNewest(asker, { ask: "trial", request: trial });
  const before = revision && { ...revision, nominal: revision.nominal?.distance ?? null };
  const figure = (label: string, of: (answer: Distances) => number | null) => {
    const text = (answer: Distances | null) => {
      const metres = answer && of(answer);
      return metres === null ? "–" : distanceText(metres, system);
    };
    return (
      <div>
        <dt>{label}</dt>
        <dd>
          {text(now.answer)}
          <small>was {text(before)}</small>
        </dd>
      </div>
    );
  };
  const reason = useMemo(
    () => whyNothing(now.question?.request, now.answer, now.failure, system),
    [now.question, now.answer, now.failure, system],
  );
  return (
    <section className={styles.strip} aria-label="What it throws now">
      <dl className={now.stale ? "live-stale" : undefined}>
        {figure("As meant", ({ nominal }) => nominal)}
        {figure("Worst ahead", ({ forward }) => forward)}
        {figure("Worst behind", ({ backward }) => backward)}
      </dl>
      <p role="status">
        {reason
          ? `Nothing is thrown as meant. ${reason}`
          : "First impact at these very numbers, no tolerances, no margin: the zone reaches farther."}
      </p>
    </section>
  );
}

/** Null while something is thrown. */
function whyNothing(
  request: HazardRequest | undefined,
  answer: Trial | null,
  failure: string | null,
  system: UnitSystem,
): string | null {
  const words = (text: string) => inWords(text, request?.machine.kind ?? "", system);
  if (failure) return words(failure);
  if (answer?.refused)
    return (request && requestProblem(request, system)) ?? "Such a machine cannot be computed: turn it back.";
  return answer?.reason ? words(answer.reason) : null;
}
