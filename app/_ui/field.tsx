/** Form fields with their label, help and error tied together for eye, ear and keyboard. */
import type { InputHTMLAttributes, ReactNode, SelectHTMLAttributes, TextareaHTMLAttributes } from "react";

export interface FieldWords {
  /** Unique on the page; help and error take their ids from it. */
  id: string;
  label: ReactNode;
  help?: ReactNode;
  /** A sentence that names the field and what to do. */
  error?: string | null;
  /** Written beside the label when nothing need be entered. */
  optional?: boolean;
}

/** The attributes that tie a control to its words. */
export const describing = ({ id, help, error }: FieldWords) => ({
  id,
  "aria-describedby":
    [help ? `${id}-help` : "", error ? `${id}-error` : ""].filter(Boolean).join(" ") || undefined,
  "aria-invalid": error ? (true as const) : undefined,
});

export function FieldFrame({
  children,
  after,
  ...words
}: FieldWords & { children: ReactNode; after?: ReactNode }) {
  return (
    <div className="field">
      <label htmlFor={words.id}>
        {words.label}
        {words.optional ? <span className="field-optional"> (optional)</span> : null}
      </label>
      {words.help ? (
        <p className="field-help" id={`${words.id}-help`}>
          {words.help}
        </p>
      ) : null}
      {children}
      <FieldError id={words.id} error={words.error} />
      {after}
    </div>
  );
}

export function FieldError({ id, error }: { id: string; error?: string | null }) {
  return error ? (
    <p className="field-error" id={`${id}-error`}>
      <svg viewBox="0 0 20 20" aria-hidden="true" focusable="false">
        <rect width="20" height="20" rx="3" fill="currentColor" />
        <path d="M10 4v8M10 14.5V17" stroke="#fff" strokeWidth="2.5" />
      </svg>
      <span>{error}</span>
    </p>
  ) : null;
}

export function TextField({
  id,
  label,
  help,
  error,
  optional,
  ...input
}: FieldWords & Omit<InputHTMLAttributes<HTMLInputElement>, "id">) {
  const words = { id, label, help, error, optional };
  return (
    <FieldFrame {...words}>
      <input type="text" autoComplete="off" {...input} {...describing(words)} />
    </FieldFrame>
  );
}

/** Words of some lines. */
export function LongTextField({
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
      <textarea {...area} {...describing(words)} />
    </FieldFrame>
  );
}

export function SelectField({
  id,
  label,
  help,
  error,
  optional,
  choices,
  ...select
}: FieldWords &
  Omit<SelectHTMLAttributes<HTMLSelectElement>, "id"> & {
    choices: readonly { value: string; label: string }[];
  }) {
  const words = { id, label, help, error, optional };
  return (
    <FieldFrame {...words}>
      <select {...select} {...describing(words)}>
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

export function CheckField({
  id,
  label,
  help,
  error,
  ...input
}: Omit<FieldWords, "optional"> & Omit<InputHTMLAttributes<HTMLInputElement>, "id" | "type">) {
  return (
    <div className="field">
      <label className="check" htmlFor={id}>
        <input {...input} {...describing({ id, label, help, error })} type="checkbox" />
        <span>{label}</span>
      </label>
      {help ? (
        <p className="field-help" id={`${id}-help`}>
          {help}
        </p>
      ) : null}
      <FieldError id={id} error={error} />
    </div>
  );
}
