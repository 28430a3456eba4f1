"use client";
/** The outcome in the inspector's words, and when it was seen if it was on paper first. */
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { LongTextField, TextField } from "@/app/_ui/field";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { InspectionInfo } from "@/lib/api/contracts";
import { type InspectionOutcome, OUTCOMES_OF_INSPECTION } from "@/lib/inspection";
import { INSPECTION_WORDS } from "../../words";
import type { InspectionDraft } from "./draft";

export function OutcomeForm({
  url,
  draft,
  onChange,
  best,
  open,
  body,
  onDone,
}: {
  url: string;
  draft: InspectionDraft;
  onChange: (part: Partial<InspectionDraft>) => void;
  /** What lines and measured numbers allow. */
  best: InspectionOutcome;
  /** Lines that are not done yet. */
  open: number;
  body: object;
  onDone: (inspection: InspectionInfo) => void;
}) {
  const allowed = OUTCOMES_OF_INSPECTION.slice(OUTCOMES_OF_INSPECTION.indexOf(best));
  const outcome = allowed.find((each) => each === draft.outcome) ?? null;
  return (
    <WriteForm<InspectionInfo>
      label="Write the inspection down"
      url={url}
      fields={["outcome", "limits", "inspectedAt", "witness"]}
      body={() => {
        if (open > 0)
          return `${open === 1 ? "One line is" : `${open} lines are`} open: look at every line, and write a note wherever it does not simply meet it.`;
        if (outcome === null)
          return "Say what comes out: it meets it, it meets it with limits, or it is refused.";
        const { seenAt, witness, limits } = draft;
        return {
          ...body,
          outcome,
          limits: outcome === "meets" ? "" : limits,
          ...(seenAt !== "" && { inspectedAt: new Date(seenAt).toISOString() }),
          ...(witness.trim() !== "" && { witness }),
        };
      }}
      submit="Write this inspection down"
      onDone={onDone}
      refresh={false}
    >
      {(errorFor) => (
        <>
          {best !== "meets" && (
            <p>
              {best === "refused"
                ? "A line fails, or a number lies outside its tolerance: the machine is refused."
                : "A line meets it with a limit: the machine meets it with limits at best."}
            </p>
          )}
          <ChoiceTiles
            id="outcome"
            legend="The machine"
            choices={allowed.map((value) => ({ value, label: INSPECTION_WORDS[value] }))}
            value={outcome}
            onChange={(value) => onChange({ outcome: value })}
            error={errorFor("outcome")}
          />
          {outcome !== null && outcome !== "meets" && (
            <Limits
              refused={outcome === "refused"}
              value={draft.limits}
              error={errorFor("limits")}
              onChange={(limits) => onChange({ limits })}
            />
          )}
          <details>
            <summary>It was written on paper first</summary>
            <TextField
              id="inspected-at"
              type="datetime-local"
              label="When it was looked at"
              optional
              value={draft.seenAt}
              onChange={(event) => onChange({ seenAt: event.target.value })}
              error={errorFor("inspectedAt")}
            />
            <TextField
              id="inspection-witness"
              label="Who saw it"
              help="A role or a post, no person’s name."
              optional
              maxLength={80}
              value={draft.witness}
              onChange={(event) => onChange({ witness: event.target.value })}
              error={errorFor("witness")}
            />
          </details>
        </>
      )}
    </WriteForm>
  );
}

function Limits({
  refused,
  value,
  error,
  onChange,
}: {
  refused: boolean;
  value: string;
  error: string | null;
  onChange: (text: string) => void;
}) {
  return (
    <LongTextField
      id="inspection-limits"
      label={refused ? "Why it is refused, and what to put right" : "The limits"}
      help="Officials and its team read this; it stays out of the public scorebook."
      error={error}
      rows={3}
      maxLength={1000}
      value={value}
      onChange={(event) => onChange(event.target.value)}
    />
  );
}
