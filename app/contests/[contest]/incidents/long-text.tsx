import type { TextareaHTMLAttributes } from "react";
import { describing, FieldFrame, type FieldWords } from "@/app/_ui/field";

/** Words of some lines. */
export function LongText({
  id,
  label,
  help,
  error,
  optional,
  ...area
}: FieldWords & Omit<TextareaHTMLAttributes<HTMLTextAreaElement>, "id">) {
  const words = { id, label, help, error, optional };
  return (
    <FieldFrame {...words}>
      <textarea rows={4} maxLength={4000} {...area} {...describing(words)} />
    </FieldFrame>
  );
}
