"use client";
/** When it was seen and by whom, of what was written down before it was typed in. */
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";

export function SeenFields({
  id,
  errorFor = () => null,
}: {
  id: string;
  errorFor?: (field: string) => string | null;
}) {
  return (
    <>
      <TextField
        id={`${id}-seen`}
        name="seen"
        type="datetime-local"
        label="When it was seen"
        help="By the clock here. Leave it empty for now."
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
  const at = new Date(textOf(form, "seen"));
  const witness = textOf(form, "witness");
  return {
    ...(!Number.isNaN(at.getTime()) && { observedAt: at.toISOString() }),
    ...(witness && { witness }),
  };
}
