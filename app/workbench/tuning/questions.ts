/** What the tuning page asks of the engine, answered in a worker or, without one, on the page's own thread. */
import { type HazardRequest, preview, tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";

export type Question =
  | { ask: "trial"; request: HazardRequest }
  | { ask: "curve"; request: HazardRequest; name: string; low: number; high: number }
  | { ask: "steps"; request: HazardRequest; system: UnitSystem }
  | { ask: "measures"; request: HazardRequest }
  | {
      ask: "tune";
      request: HazardRequest;
      goal: tuning.Goal;
      vary: readonly tuning.Range[];
      limits: tuning.Limits;
    };

export interface Trial {
  nominal: number | null;
  /** Why nothing is thrown as meant. */
  reason: string | null;
  /** Whether the contract refuses such a machine: why is for whoever knows the reader's units. */
  refused: boolean;
  forward: number | null;
  backward: number | null;
}

export interface Answers {
  trial: Trial;
  curve: tuning.TuningPoint[];
  steps: tuning.Sensitivity[];
  measures: { evaluation: tuning.Evaluation | null; usual: tuning.Limits };
  tune: tuning.TuningResult;
}

/** A curve's points: fine enough to show a jump, few enough to follow a thumb. */
const POINTS = 49;

export function answerTo<Q extends Question>(
  question: Q,
  onProgress: (done: number) => void = () => {},
): Answers[Q["ask"]] {
  const answer = (): Answers[Question["ask"]] => {
    const { request } = question;
    switch (question.ask) {
      case "trial":
        return trialOf(request);
      case "curve":
        return tuning.curve(request, question.name, question.low, question.high, POINTS);
      case "steps":
        return tuning.sensitivities(request, question.system);
      case "measures":
        return { evaluation: tuning.evaluate(request), usual: tuning.usualLimits(request) };
      case "tune":
        return tuning.tune(request, question.goal, question.vary, question.limits, onProgress);
    }
  };
  return answer() as Answers[Q["ask"]];
}

function trialOf(request: HazardRequest): Trial {
  const found = tuning.isInRange(request) ? tuning.evaluate(request, ["forward", "backward"]) : null;
  if (!found) return { nominal: null, forward: null, backward: null, reason: null, refused: true };
  const { nominal, forward, backward } = found;
  const reason = nominal ? null : preview(request).nominalReason;
  return { nominal: nominal?.distance ?? null, reason, refused: false, forward, backward };
}
