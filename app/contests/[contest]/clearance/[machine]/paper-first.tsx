"use client";
/** Of a permit that was signed on paper first: when, and who saw it. */
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { instantOf } from "../../order/clock-fields";

/** Both or neither: what is missing, in words. */
export function unfinishedPaper(form: FormData): string | null {
  const [at, witness] = [textOf(form, "signedAt"), textOf(form, "witness")];
  if (at !== "" && instantOf(at) === null) return "Signed on paper: give a day and a time.";
  if ((at === "") !== (witness === ""))
    return "Signed on paper: give both when it was and who saw it, or neither.";
  return null;
}

export const paperOf = (form: FormData) => {
  const signedAt = instantOf(textOf(form, "signedAt"));
  return signedAt ? { paper: { signedAt, witness: textOf(form, "witness") } } : {};
};

export const PaperFirst = ({ errorFor }: { errorFor: (field: string) => string | null }) => (
  <details>
    <summary>It was signed on paper first</summary>
    <p>It counts from now on all the same: what was thrown meanwhile takes a ruling.</p>
    <TextField
      id="permit-signed-at"
      name="signedAt"
      type="datetime-local"
      label="When it was signed"
      optional
      error={errorFor("paper.signedAt")}
    />
    <TextField
      id="permit-witness"
      name="witness"
      label="Who saw it"
      help="A role or a post, no person’s name."
      optional
      maxLength={80}
      error={errorFor("paper.witness")}
    />
  </details>
);
