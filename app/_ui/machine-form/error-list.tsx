"use client";
import { fieldId } from "./form/fields";
import { type FieldErrors, placesOf } from "./form/request";
import type { FormState } from "./form/state";

/** What is wrong, each with a way to its field. */
export function ErrorList({ errors, form }: { errors: FieldErrors; form: FormState }) {
  const known = new Set([...placesOf(form).map((each) => each.path), "policy.hangUpReason"]);
  return (
    <ul>
      {Object.entries(errors).map(([path, message]) => (
        <li key={path}>
          {known.has(path) ? (
            <a
              href={`#${fieldId(path)}`}
              onClick={(event) => {
                event.preventDefault();
                goTo(fieldId(path));
              }}
            >
              {message}
            </a>
          ) : (
            message
          )}
        </li>
      ))}
    </ul>
  );
}

/** To a field, opening what it is folded in. */
export function goTo(id: string) {
  const field = document.getElementById(id);
  for (let fold = field?.closest("details"); fold; fold = fold.parentElement?.closest("details")) {
    fold.open = true;
  }
  field?.focus();
}
