"use client";
/** What the sliders throw, beside what the revision throws: always in sight while a thumb moves. */
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import type { HazardRequest } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import type { Trial } from "./questions";
import styles from "./tuning.module.css";
import { useNewest } from "./use-answers";

export function TrialStrip({
  request,
  trial,
  system,
}: {
  request: HazardRequest;
  trial: HazardRequest;
  system: UnitSystem;
}) {
  const now = useNewest({ ask: "trial", request: trial });
  const before = useNewest({ ask: "trial", request });
  const figure = (label: string, of: (answer: Trial) => number | null) => {
    const text = (answer: Trial | null) => {
      const metres = answer && of(answer);
      return metres === null ? "–" : distanceText(metres, system);
    };
    return (
      <div>
        <dt>{label}</dt>
        <dd>
          {text(now.answer)}
          <small>revision {text(before.answer)}</small>
        </dd>
      </div>
    );
  };
  const reason = now.failure ?? now.answer?.reason;
  return (
    <div className={styles.strip} data-answer>
      <dl className={now.stale ? "live-stale" : undefined} aria-label="What it throws now">
        {figure("As meant", ({ nominal }) => nominal)}
        {figure("Worst ahead", ({ forward }) => forward)}
        {figure("Worst behind", ({ backward }) => backward)}
      </dl>
      <p role="status">
        {reason
          ? `Nothing is thrown as meant: ${reason}`
          : "First impact at these very numbers, no margin: stand by the sheet."}
      </p>
    </div>
  );
}
