/**
 * What measured throws of one revision say of its model: the efficiency that explains them (efficiency.ts), and each mark
 * judged by the marks before it.
 */
import type { Calibration, MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import {
  chebyshev,
  type Explained,
  type Fit,
  Flyers,
  fitOf,
  markOf,
  predict,
  type Response,
} from "./efficiency";

/**
 * @param throws of this very revision, in the order they were made
 * @param worstForward the sheet's worst distance in the direction of the throws, m; by throw where they differ in more
 *   than what decides the throw as meant
 * @throws CannotThrow
 */
export function calibrate(
  request: HazardRequest,
  throws: readonly MeasuredThrow[],
  worstForward: number | ((measured: MeasuredThrow) => number),
): Calibration {
  const worstOf = typeof worstForward === "number" ? () => worstForward : worstForward;
  const flyers = new Flyers(request);
  const marks = throws.map((measured) => markOf(measured, flyers));
  const known = marks.flatMap(({ efficiency }) => efficiency ?? []);
  const from = known.length > 0 ? 0.8 * Math.min(...known) : 0.5;
  const to = known.length > 0 ? 1.2 * Math.max(...known) : 1.5;
  const responses = new Map<(efficiency: number) => number, Response>();
  const responseOf = (fly: (efficiency: number) => number): Response => {
    const response = responses.get(fly) ?? chebyshev(fly, from, to);
    responses.set(fly, response);
    return response;
  };

  const all: Explained[] = [];
  /**
   * Those that judge the ones after them: a mark that raised an alarm does not widen what comes next, nor does one that
   * fell as far short, for a slack rope or a bad slip would hide the next one that goes too far.
   */
  const quiet: Explained[] = [];
  const judged = marks.map(({ measured, modelled, efficiency, fly }): Calibration["marks"][number] => {
    const { distance, uncertainty } = measured;
    const response = fly && efficiency !== null ? responseOf(fly) : null;
    const prediction = fly && quiet.length > 0 ? predict(fitOf(quiet), responseOf(fly)) : null;
    const upper = prediction?.upper99 ?? null;
    const verdict =
      distance > worstOf(measured)
        ? "model-wrong"
        : upper === null
          ? "unjudged"
          : distance > upper
            ? "alarm"
            : "expected";
    if (response) {
      const explained = { distance, uncertainty, response };
      all.push(explained);
      const short = prediction && upper !== null && distance < 2 * prediction.distance - upper;
      if (!short && (verdict === "expected" || verdict === "unjudged")) quiet.push(explained);
    }
    return {
      distance,
      modelled,
      efficiency,
      predicted: prediction?.distance ?? null,
      upper99: upper,
      verdict,
    };
  });

  const fit = all.length > 0 ? fitOf(all) : null;
  const next = flyers.of({});
  const alarm = judged.some(({ verdict }) => verdict === "alarm");
  const hold = judged.some(({ verdict }) => verdict === "model-wrong");
  return {
    throws: throws.length,
    efficiency: fit?.efficiency ?? null,
    standardError: fit?.standardError ?? null,
    degreesOfFreedom: fit?.degrees ?? 0,
    scatter: fit?.scatter ?? null,
    next: fit && next ? predict(fit, responseOf(next)) : null,
    marks: judged,
    alarm,
    hold,
    notes: notesOf(fit, judged, { alarm, hold }),
  };
}

function notesOf(
  fit: Fit | null,
  marks: Calibration["marks"],
  { alarm, hold }: { alarm: boolean; hold: boolean },
): string[] {
  const notes: string[] = [];
  if (hold) {
    notes.push(
      "A mark lies beyond the worst throw: the model or the declaration is wrong. Hold the range until the safety officer has found out why.",
    );
  }
  if (alarm) {
    notes.push(
      "A mark lies beyond what 99 of 100 throws would reach: something has changed. Look at the machine, the projectile and the wind before the next throw.",
    );
  }
  if (marks.some(({ modelled }) => modelled === null)) {
    notes.push("As declared, the machine does not let go, so its marks say nothing of the model.");
  } else if (marks.some(({ efficiency }) => efficiency === null)) {
    notes.push("No efficiency explains a mark: check its distance and the declaration.");
  }
  if (fit && fit.efficiency > 1) {
    notes.push(
      "The throws carry more energy than the model, which loses none, can give: what was declared is not what was thrown.",
    );
  }
  if (fit && fit.scatter === null) {
    notes.push("One throw says nothing of the scatter: from two on, each is judged by those before it.");
  }
  return notes;
}
