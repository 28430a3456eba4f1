/** One inspection as it was written down: what did not simply meet its line first. */

import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import type { InspectionInfo } from "@/lib/api/contracts";
import { dimensionsOf, isOff, LINES } from "@/lib/inspection";
import type { Declaration } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { FINDING_WORDS, INSPECTION_WORDS } from "../words";

export function InspectionRecord({
  inspection,
  declaration,
  system,
  open,
}: {
  inspection: InspectionInfo;
  /** Of the revision that was inspected. */
  declaration: Declaration | undefined;
  system: UnitSystem;
  open: boolean;
}) {
  const { lines, measured, outcome, limits, revision, by, witness, inspectedAt } = inspection;
  const met = lines.filter(({ finding }) => finding === "meets");
  const others = lines.filter(({ finding }) => finding !== "meets");
  const titleOf = (id: string) => LINES.find((line) => line.id === id)?.title ?? id;
  const dimensions = declaration ? dimensionsOf(declaration) : [];
  const of = (path: string) => dimensions.find((dimension) => dimension.path === path);
  return (
    <details open={open}>
      <summary>
        {INSPECTION_WORDS[outcome]}: revision {revision}, <LocalTime iso={inspectedAt} day />
      </summary>
      <p>
        By {by}
        {witness && `, seen by ${witness}`}. {met.length} of {lines.length} lines meet it.
      </p>
      {limits && (
        <p>
          <strong>{outcome === "refused" ? "Why" : "Limits"}:</strong> {limits}
        </p>
      )}
      {others.length > 0 && (
        <ul>
          {others.map(({ id, finding, note }) => (
            <li key={id}>
              <strong>{titleOf(id)}</strong>: {FINDING_WORDS[finding].toLowerCase()}. {note}
            </li>
          ))}
        </ul>
      )}
      {measured.length > 0 && (
        <>
          <p>
            <strong>Measured beside declared</strong>
          </p>
          <Table
            caption="Measured beside declared"
            hideCaption
            stacks
            rows={measured}
            rowKey={({ path }) => path}
            columns={[
              { key: "what", head: "What", rowHead: true, cell: ({ path }) => of(path)?.label ?? path },
              {
                key: "declared",
                head: "Declared",
                cell: ({ path, declared }) => {
                  const dimension = of(path);
                  return dimension ? formatQuantity(declared, dimension.dimension, system) : declared;
                },
              },
              {
                key: "measured",
                head: "Measured",
                cell: ({ path, value }) => {
                  const dimension = of(path);
                  if (!dimension) return value;
                  return `${formatQuantity(value, dimension.dimension, system)}${isOff(dimension, value) ? ": outside its tolerance" : ""}`;
                },
              },
            ]}
          />
        </>
      )}
    </details>
  );
}
