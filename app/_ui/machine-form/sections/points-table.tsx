"use client";
/** A list of measured points as a small table, a row a point. */
import { useRef } from "react";
import { Button } from "@/app/_ui/button";
import { FieldError } from "@/app/_ui/field";
import { unitLabel } from "@/lib/units";
import { fieldId, type TableSpec } from "../form/fields";
import { cellsOf } from "../form/state";
import { FieldOf, type SectionProps } from "./fields";

export function PointsTable({
  table,
  letter,
  ...props
}: SectionProps & { table: TableSpec; letter: string | undefined }) {
  const { form, change, errors } = props;
  const box = useRef<HTMLDivElement>(null);
  const rows = cellsOf(form, table);
  const id = fieldId(table.path);
  const error = errors[table.path] ?? null;
  /** The focus goes where the reader goes on: the new point, or the button that took one away. */
  const focusLater = (selector: string) =>
    requestAnimationFrame(() => box.current?.querySelector<HTMLElement>(selector)?.focus());
  return (
    <div className="points" id={id} tabIndex={-1} ref={box} role="group" aria-labelledby={`${id}-label`}>
      <h3 id={`${id}-label`}>
        {letter ? <span className="entry-letter">{letter}</span> : null} {table.label}
      </h3>
      <p className="field-help">{table.help}</p>
      <FieldError id={id} error={error} />
      <ol className="points-rows">
        {rows.map((cells, row) => (
          <li key={cells[0]?.path} className="points-row">
            {cells.map((spec, column) => (
              <FieldOf
                key={spec.path}
                spec={spec}
                label={
                  <>
                    <span className="aloud">Point {row + 1}, </span>
                    {table.columns[column]?.label}, {unitLabel(spec.dimension, form.system)}
                  </>
                }
                {...props}
              />
            ))}
            <Button
              className="points-remove"
              aria-label={`Remove point ${row + 1}`}
              aria-disabled={rows.length <= table.fewest}
              onClick={() => {
                if (rows.length <= table.fewest) return;
                change({ type: "remove-row", table, row });
                focusLater(".points-add");
              }}
            >
              <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" focusable="false">
                <path d="M4 4l12 12M16 4L4 16" stroke="currentColor" strokeWidth="2.5" />
              </svg>
            </Button>
          </li>
        ))}
      </ol>
      {rows.length < table.most ? (
        <Button
          className="points-add"
          onClick={() => {
            change({ type: "add-row", table });
            focusLater(`.points-row:nth-child(${rows.length + 1}) input`);
          }}
        >
          Add a point
        </Button>
      ) : null}
    </div>
  );
}
