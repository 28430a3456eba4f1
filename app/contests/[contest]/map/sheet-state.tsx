"use client";
/** What stands in place of a hazard sheet that is not there. */
import { Notice } from "@/app/_ui/notice";
import type { SheetAnswer } from "@/lib/api/contracts";

export function SheetState({
  state,
  reason,
  progress,
}: Pick<SheetAnswer, "state" | "reason"> & {
  /** How much of it is computed, 0 to 1, where that is known. */
  progress?: number | null;
}) {
  if (state === "current") return null;
  if (state === "computing") {
    return (
      <Notice title="Being computed" live>
        <p>
          The hazard sheet for what is declared now is not ready. It takes some seconds and appears here by
          itself. Until then there is no zone: keep everyone away.
        </p>
        {typeof progress === "number" ? (
          <p>
            <progress aria-label="Hazard sheet" max={1} value={progress} />{" "}
            <span aria-hidden="true">{Math.round(100 * progress)} %</span>
          </p>
        ) : null}
      </Notice>
    );
  }
  return (
    <Notice kind="problem" title="No zone">
      <p>
        {state === "none"
          ? "Nothing is declared for this machine yet, so nothing is computed."
          : `The hazard sheet could not be computed: ${reason ?? "the reason is in the server’s log."}`}{" "}
        Without a zone the machine must not fire.
      </p>
    </Notice>
  );
}
