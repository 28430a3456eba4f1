/**
 * What measured throws of one revision say of its model: the efficiency that explains them (efficiency.ts), and each mark
 * judged by others (judging.ts): by those before it that gave no reason for doubt, the first four by one another.
 */
import type { Calibration, MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { chebyshev, Flyers, fitOf, lowerMedian, type Mark, markOf, type Response } from "./efficiency";
import { isVague, type Judge, limitOf, limitsBy, statedOf } from "./judging";
import { notesOf, remarkOf } from "./remarks";

/** So many throws tell at the earliest which of them is the odd one. */
const FIRST = 4;

type Verdict = Calibration["marks"][number]["verdict"];
type Fly = (efficiency: number) => number;

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
  const responseOf = responses(marks);
  // Nothing is taken off a mark for how badly it is known: beyond the worst it is beyond it.
  const held = marks.map(({ measured }) => measured.distance > worstOf(measured));
  const explained = marks.map(({ efficiency }, index) => efficiency !== null && !held[index]);
  // Where all of them are known badly they judge one another yet.
  const precise = marks.some(({ measured }, index) => explained[index] && !isVague(measured));
  const judges = marks.map(({ measured, efficiency, fly }, index): Judge | null =>
    fly && efficiency !== null && explained[index] && !(precise && isVague(measured))
      ? { ...measured, uncertainty: statedOf(measured), response: responseOf(fly), efficiency }
      : null,
  );
  const first = judges.flatMap((judge, index) => (judge ? index : [])).slice(0, FIRST);
  const trusted = new Set<number>();
  const of = (indices: readonly number[]) => indices.flatMap((index) => judges[index] ?? []);

  const judged = marks.map((mark, index): Calibration["marks"][number] => {
    const { measured, modelled, efficiency, fly } = mark;
    const before = judges.flatMap((judge, i) => (judge && i < index ? i : []));
    const quiet = before.filter((i) => trusted.has(i));
    // Where most of them gave an alarm, those few that did not are no better than the others.
    const judging =
      before.length < FIRST
        ? first.filter((i) => i !== index)
        : 2 * quiet.length < before.length
          ? before
          : quiet;
    // What cannot be computed as it was written down is judged as if nothing had been.
    const { settings, terrain } = measured;
    const plain = flyers.of({ settings, terrain }) ?? flyers.of({});
    const own = limitOf(of(judging), fly ?? plain, plain, responseOf);
    const { distance } = measured;
    const verdict: Verdict = held[index]
      ? "model-wrong"
      : distance > own.most
        ? "alarm"
        : own.limits === null
          ? "unjudged"
          : distance < 2 * own.limits.distance - own.limits.upper99
            ? "short"
            : "expected";
    if (judges[index] && (verdict === "expected" || verdict === "unjudged")) trusted.add(index);
    return {
      distance,
      modelled,
      efficiency,
      predicted: own.limits?.distance ?? null,
      upper99: own.limits && Math.min(own.limits.upper99, own.most),
      verdict,
      used: false,
      remark: remarkOf(mark, verdict, own, flyers),
    };
  });

  const all = judges.flatMap((judge, index) => (judge ? index : []));
  const taken = trusted.size > 0 ? [...trusted] : all;
  for (const index of taken) (judged[index] as Calibration["marks"][number]).used = true;
  const used = of(taken);
  const fit = used.length > 0 ? fitOf(used) : null;
  const next = flyers.of({});
  const alarm = judged.some(({ verdict }) => verdict === "alarm");
  const hold = judged.some(({ verdict }) => verdict === "model-wrong");
  return {
    throws: throws.length,
    efficiency: fit?.efficiency ?? null,
    standardError: fit?.standardError ?? null,
    degreesOfFreedom: fit?.degrees ?? 0,
    scatter: fit?.scatter ?? null,
    next: next ? limitsBy(used, responseOf(next)) : null,
    marks: judged,
    alarm,
    hold,
    notes: notesOf(fit, judged, { alarm, hold }),
  };
}

/** Of every throw one series: about the middle of what the marks show, or one odd mark would make all of them coarse. */
function responses(marks: readonly Mark[]): (fly: Fly) => Response {
  const known = marks.flatMap(({ efficiency }) => efficiency ?? []);
  const centre = known.length > 0 ? lowerMedian(known) : 1;
  const from = Math.max(0.4 * centre, 0.8 * Math.min(centre, ...known));
  const to = Math.min(2.5 * centre, 1.2 * Math.max(centre, ...known));
  const made = new Map<Fly, Response>();
  return (fly) => {
    const response = made.get(fly) ?? chebyshev(fly, from, to);
    made.set(fly, response);
    return response;
  };
}
