"use client";
/** Everything that lies around the range, with its rule and stand-off: to find, change, retire and bring back. */
import { type ReactNode, useState } from "react";
import type { ContestOverview } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { isLoosened, ruleOf, standOffOf } from "@/lib/zones/kinds";
import { Button } from "../button";
import { SelectField } from "../field";
import { Table } from "../table";
import { useUnits } from "../units";
import { kindTitle } from "../zones/scene-of";
import { RULE_WORDS } from "./rules";
import styles from "./site-editor.module.css";

/** Something that is laid out, for whoever takes it away or brings it back. */
export interface Thing {
  item: string;
  id: string;
  /** As buttons say it. */
  name: string;
  retired: boolean;
  /** What its being retired means. */
  meaning: string;
}

/** How a reader may change what is laid out; null where they may not. */
export type Tools = {
  edit: (item: string, id: string) => void;
  away: (thing: Thing) => ReactNode;
} | null;

type Feature = ContestOverview["features"][number];

const corners = ({ geometry }: Feature) =>
  geometry.type === "Point"
    ? "point"
    : geometry.type === "LineString"
      ? `line of ${geometry.coordinates.length} points`
      : `area of ${(geometry.coordinates[0]?.length ?? 1) - 1} corners`;

/** Where less is asked for than holds. */
function waitsFor(feature: Feature, what: "rule" | "stand-off"): string {
  const less = what === "rule" ? ruleOf(feature) !== feature.rule : standOffOf(feature) !== feature.standOff;
  return less && isLoosened(feature) ? " (its kind’s, until the safety officer allows less)" : "";
}

export function FeatureList({
  features,
  retires,
  tools,
}: {
  features: readonly Feature[];
  /** What is taken off the map stays in the record. */
  retires: boolean;
  tools: Tools;
}) {
  const system = useUnits();
  const [kind, setKind] = useState("all");
  const [state, setState] = useState("drawn");
  const retired = features.filter((feature) => feature.retired).length;
  const kinds = [...new Set(features.map((feature) => feature.kind))];
  const rows = features.filter(
    (feature) =>
      (kind === "all" || feature.kind === kind) &&
      (state === "all" || feature.retired === (state === "retired")),
  );
  return (
    <>
      <div className={styles.filters}>
        <SelectField
          id="filter-kind"
          label="Kind"
          value={kind}
          onChange={(event) => setKind(event.target.value)}
          choices={[
            { value: "all", label: "All kinds" },
            ...kinds.map((one) => ({ value: one, label: kindTitle(one) })),
          ]}
        />
        {retires && (
          <SelectField
            id="filter-state"
            label="Shown"
            value={state}
            onChange={(event) => setState(event.target.value)}
            choices={[
              { value: "drawn", label: `On the map (${features.length - retired})` },
              { value: "retired", label: `Retired (${retired})` },
              { value: "all", label: `All (${features.length})` },
            ]}
          />
        )}
      </div>
      <Table
        caption="Site features"
        stacks
        hideCaption
        rows={rows}
        rowKey={({ id }) => id}
        empty={
          features.length === 0
            ? "Nothing is laid out yet. Begin with the boundary: what leaves it is always a conflict."
            : "None is like this: choose other kinds, or show all."
        }
        columns={[
          { key: "name", head: "Name", rowHead: true, cell: ({ name }) => name },
          { key: "kind", head: "Kind", cell: (feature) => kindTitle(feature.kind) },
          { key: "shape", head: "Shape", cell: corners },
          {
            key: "rule",
            head: "Rule",
            cell: (feature) =>
              `${RULE_WORDS[ruleOf(feature)]}${feature.rule ? waitsFor(feature, "rule") : " (by its kind)"}`,
          },
          {
            key: "standOff",
            head: "Stand-off",
            number: true,
            cell: (feature) =>
              `${formatQuantity(standOffOf(feature), "distance", system)}${feature.standOff === null ? " (by its kind)" : waitsFor(feature, "stand-off")}`,
          },
          {
            key: "state",
            head: tools ? "Change" : "State",
            cell: (feature) =>
              tools ? (
                <span className={styles.rowTools}>
                  {!feature.retired && (
                    <Button
                      aria-label={`Change ${feature.name}`}
                      onClick={() => tools.edit(feature.kind, feature.id)}
                    >
                      Change
                    </Button>
                  )}
                  {tools.away({
                    item: feature.kind,
                    id: feature.id,
                    name: feature.name,
                    retired: feature.retired,
                    meaning: "Retired: protects nothing.",
                  })}
                </span>
              ) : feature.retired ? (
                "retired"
              ) : (
                "on the map"
              ),
          },
        ]}
      />
    </>
  );
}
