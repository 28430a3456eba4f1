"use client";
/** The setting to try next, or why there is none. */
import { useUnits } from "@/app/_ui/units";
import type { HazardRequest, MeasuredThrow, tuning } from "@/lib/throw";
import type { Throw } from "../log/log";
import { NextSection } from "./next-section";
import type { Judged } from "./use-machine";

export function NextPlace({
  judged,
  newest,
  stopped,
  request,
  throws,
  setting,
}: {
  judged: Judged | null;
  /** The last throw that counts. */
  newest: Throw | undefined;
  /** Whether STOP stands, for whichever machine. */
  stopped: boolean;
  /** In the air and at the settings of the last throw. */
  request: HazardRequest;
  /** In the order of the marks. */
  throws: readonly MeasuredThrow[];
  setting: tuning.Knob;
}) {
  const system = useUnits();
  if (stopped)
    return (
      <p>
        None while STOP stands: find out first why a throw went so far. One that was written down wrong is
        corrected or struck out.
      </p>
    );
  if (!judged || !newest)
    return <p>It follows from the calibrated machine: write down a throw that landed.</p>;
  const { machine, provisional } = judged;
  const { calibration, behindWorst } = machine;
  if (provisional) return <p>Working out first what the machine throws at its worst…</p>;
  if (calibration.efficiency === null) return <p>No throw says yet what this machine does.</p>;
  if (calibration.hold || behindWorst.length > 0)
    return <p>None: the model is wrong for these numbers. Measure the machine anew first.</p>;
  if (newest.result !== "landed") return <p>None after a throw that went wrong: find out why first.</p>;
  return (
    <NextSection
      request={request}
      throws={throws.filter((_, index) => calibration.marks[index]?.used)}
      machine={machine}
      setting={setting}
      system={system}
    />
  );
}
