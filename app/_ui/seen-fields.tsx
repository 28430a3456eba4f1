"use client";
/** When it was and who saw it, of what was written down before it was typed in. */
import { instantOf } from "./clock-fields";
import { TextField } from "./field";
import { textOf } from "./write/form-values";

export function SeenFields({
  id,
  label = "When it was seen",
  help = "By the clock here. Leave it empty for now.",
  errorFor = () => null,
}: {
  id: string;
  label?: string;
  help?: string;
  errorFor?: (field: "observedAt" | "witness") => string | null;
}) {
  return (
    <>
      <TextField
        id={`${id}-seen`}
        name="seen"
        type="datetime-local"
        label={label}
        help={help}
        optional
        error={errorFor("observedAt")}
      />
      <TextField
        id={`${id}-witness`}
        name="witness"
        label="Who saw it"
        help="A role or a post, no person’s name."
        optional
        maxLength={80}
        error={errorFor("witness")}
      />
    </>
  );
}

/** As the API takes it; nothing where nothing was given. */
export function seenIn(form: FormData): { observedAt?: string; witness?: string } {
  const observedAt = instantOf(textOf(form, "seen"));
  const witness = textOf(form, "witness");
  return { ...(observedAt && { observedAt }), ...(witness && { witness }) };
}
