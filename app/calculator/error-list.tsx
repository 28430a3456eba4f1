"use client";
import { allFields, fieldId, type Kind } from "./form/fields";
import type { FieldErrors } from "./form/request";

/** What is wrong, each with a way to its field. */
export function ErrorList({ errors, kind }: { errors: FieldErrors; kind: Kind }) {
  const known = new Set([...allFields(kind).map((each) => each.path), "policy.hangUpReason"]);
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
function goTo(id: string) {
  const field = document.getElementById(id);
  const fold = field?.closest("details");
  if (fold) fold.open = true;
  field?.focus();
}
