/** The last throw fell far short: what that may mean for the next one. */
import { Caution } from "@/app/_ui/caution";
import type { trials } from "@/lib/throw";

export function ShortThrow({ machine }: { machine: trials.CalibratedMachine | null }) {
  if (machine?.calibration.marks.at(-1)?.verdict !== "short") return null;
  return (
    <Caution kind="warning" title="the last throw fell far short">
      <p>
        If the mark was written down wrong, correct it. If not: a loop that slips badly, a rope that drags or
        a part that gives way may throw anywhere the next time. Make it safe and find out why.
      </p>
    </Caution>
  );
}
