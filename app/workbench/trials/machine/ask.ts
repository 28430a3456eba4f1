/** What is asked of the throws. Apart from the workers, which a page starts and no worker may name. */
import { type HazardRequest, type MeasuredThrow, trials } from "@/lib/throw";
import { calibrating, type Group, type Log, mainSetting, requestOf, type Throw } from "../log/log";
import { measuredOf } from "../log/measured";

export interface MachineAsked {
  request: HazardRequest;
  throws: readonly MeasuredThrow[];
  backward: readonly MeasuredThrow[];
  /** What was declared at the throws, each once. */
  declared: readonly HazardRequest[];
  /** Which of them stood at each throw, forwards and backwards. */
  stood: { forward: readonly number[]; backward: readonly number[] };
  /** Whose scale is looked at. */
  setting: string | null;
}

/**
 * Of one machine's throws as they stand in the log, whatever is on the bench by now: a wider tolerance or a stronger gust
 * that is declared today takes no throw of yesterday back. Null where nothing has a mark.
 */
export function askedOf(log: Log, { throws }: Pick<Group, "throws">): MachineAsked | null {
  const { forward, backward } = calibrating(throws);
  const all = [...forward, ...backward];
  const newest = throws.findLast((each) => all.includes(each));
  if (!newest) return null;
  const request = requestOf(log, newest);
  const declared = [...new Set(all.map((each) => requestOf(log, each)))];
  const measured = (list: readonly Throw[]) =>
    list.flatMap((each) => measuredOf(each, requestOf(log, each)) ?? []);
  const stood = (list: readonly Throw[]) => list.map((each) => declared.indexOf(requestOf(log, each)));
  const { name, dimension } = mainSetting(request);
  return {
    request,
    throws: measured(forward),
    backward: measured(backward),
    declared,
    stood: { forward: stood(forward), backward: stood(backward) },
    setting: dimension === "angle" ? name : null,
  };
}

/** Nearly all of the time goes into the worst throws of a machine, which stay the same from throw to throw. */
const searched = trials.searchedWorst();

export const calibrated = (asked: MachineAsked): trials.CalibratedMachine =>
  found(asked, asked.setting, searched);

/** The same within milliseconds, held against the worst throws of the declared numbers alone. */
export const quickly = (asked: MachineAsked): trials.CalibratedMachine =>
  found(asked, null, trials.quickWorst);

function found(asked: MachineAsked, setting: string | null, worstOf: trials.WorstOf) {
  const { request, throws, backward, declared, stood } = asked;
  const of = (index: number | undefined) => declared[index ?? 0] ?? request;
  const stoodAt = new Map([
    ...throws.map((each, index) => [each, of(stood.forward[index])] as const),
    ...backward.map((each, index) => [each, of(stood.backward[index])] as const),
  ]);
  const declaredOf = (each: MeasuredThrow) => stoodAt.get(each) ?? request;
  return trials.calibratedMachine(request, throws, backward, setting, worstOf, declaredOf);
}
