"use client";
/** What stands in place of a hazard sheet that is not there. */
import { Notice } from "@/app/_ui/notice";
import type { SheetAnswer } from "@/lib/api/contracts";

export function SheetState({ state, reason }: Pick<SheetAnswer, "state" | "reason">) {
  if (state === "current") return null;
  if (state === "computing") {
    return (
      <Notice title="Being computed" live>
        <p>
          The hazard sheet for what is declared now is not ready. It takes some seconds and appears here by
          itself. Until then there is no zone: keep everyone away.
        </p>
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
