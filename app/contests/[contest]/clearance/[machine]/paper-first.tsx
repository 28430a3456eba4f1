"use client";
/** Of a permit that was signed on paper first: when, and who saw it. */
import { SeenFields, seenIn } from "@/app/_ui/seen-fields";
import { textOf } from "@/app/_ui/write/form-values";

/** Both or neither: what is missing, in words. */
export function unfinishedPaper(form: FormData): string | null {
  const { observedAt, witness } = seenIn(form);
  if (textOf(form, "seen") !== "" && !observedAt) return "Signed on paper: give a day and a time.";
  if (Boolean(observedAt) !== Boolean(witness))
    return "Signed on paper: give both when it was and who saw it, or neither.";
  return null;
}

export function paperOf(form: FormData) {
  const { observedAt: signedAt, witness } = seenIn(form);
  return signedAt ? { paper: { signedAt, witness } } : {};
}

export const PaperFirst = ({ errorFor }: { errorFor: (field: string) => string | null }) => (
  <details>
    <summary>It was signed on paper first</summary>
    <p>It counts from now on all the same: what was thrown meanwhile takes a ruling.</p>
    <SeenFields
      id="permit"
      label="When it was signed"
      help="By the clock here."
      errorFor={(field) => errorFor(field === "witness" ? "paper.witness" : "paper.signedAt")}
    />
  </details>
);
