"use client";
import { MACHINE_KINDS } from "@/lib/throw";
import type { Kind } from "./form/fields";

/** Which machine it is, by what an owner sees of it. */
export function KindPicker({ kind, onKind }: { kind: Kind; onKind: (kind: Kind) => void }) {
  return (
    <fieldset className="kinds">
      <legend>Kind of machine</legend>
      <div className="kinds-choices">
        {MACHINE_KINDS.map((each) => (
          <label key={each.kind} className="kind">
            <input
              type="radio"
              name="kind"
              value={each.kind}
              checked={each.kind === kind}
              onChange={() => onKind(each.kind)}
            />
            <span>
              <strong>{each.title}</strong>
              <span className="kind-summary">{each.summary}</span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
