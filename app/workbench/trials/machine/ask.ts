/** What is asked of the throws. Apart from the workers, which a page starts and no worker may name. */
import { type HazardRequest, type MeasuredThrow, trials } from "@/lib/throw";

export interface MachineAsked {
  request: HazardRequest;
  throws: readonly MeasuredThrow[];
  backward: readonly MeasuredThrow[];
  /** Whose scale is looked at. */
  setting: string | null;
}

/** Nearly all of the time goes into the worst throws of a machine, which stay the same from throw to throw. */
const searched = trials.searchedWorst();

export const calibrated = ({ request, throws, backward, setting }: MachineAsked): trials.CalibratedMachine =>
  trials.calibratedMachine(request, throws, backward, setting, searched);

/** The same within milliseconds, held against the worst throws of the declared numbers alone. */
export const quickly = ({ request, throws, backward }: MachineAsked): trials.CalibratedMachine =>
  trials.calibratedMachine(request, throws, backward, null, trials.quickWorst);
