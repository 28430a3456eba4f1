/** What is asked of the throws. Apart from the worker, which a page starts and no worker may name. */
import { type HazardRequest, type MeasuredThrow, trials } from "@/lib/throw";

export interface MachineAsked {
  request: HazardRequest;
  throws: readonly MeasuredThrow[];
  backward: readonly MeasuredThrow[];
  /** Whose scale is looked at. */
  setting: string | null;
}

export const calibrated = ({ request, throws, backward, setting }: MachineAsked): trials.CalibratedMachine =>
  trials.calibratedMachine(request, throws, backward, setting);
