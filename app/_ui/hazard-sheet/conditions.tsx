/** What a sheet was computed under: the air, the ground, the policy and what may be thrown. */
import { type FieldSpec, policyFields, ruleFields, terrainFields } from "@/app/_ui/machine-form/form/fields";
import { at } from "@/app/_ui/machine-form/form/specs";
import type { Air, Policy, Terrain } from "@/lib/throw";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";
import { Table } from "../table";

export function ConditionsTable({
  air,
  terrain,
  policy,
  system,
}: {
  air: Air | undefined;
  terrain: Terrain | undefined;
  policy: Policy | undefined;
  system: UnitSystem;
}) {
  const rows: { label: string; value: string }[] = [];
  const add = (label: string, value: unknown, dimension: Dimension) => {
    if (typeof value === "number") rows.push({ label, value: formatQuantity(value, dimension, system) });
  };
  const all = (fields: readonly FieldSpec[]) => {
    for (const { path, label, dimension } of fields) add(label, at({ policy, terrain }, path), dimension);
  };
  const wind = air?.wind;
  if (air) {
    add("Mean wind", wind?.speed ?? 0, "speed");
    add("Top gust", wind?.gust, "speed");
    if (wind) add("Wind blows towards, from the bearing", wind.direction, "angle");
    // The contract takes degrees Celsius too; nothing on Earth is as cold as 60 K.
    const { temperature } = air;
    add(
      "Air temperature",
      temperature !== undefined && temperature <= 60 ? temperature + 273.15 : temperature,
      "temperature",
    );
    add("Station pressure", air.pressure, "pressure");
    add("Altitude", air.altitude, "distance");
  }
  if (terrain) all(terrainFields);
  if (policy) {
    all(policyFields);
    rows.push({ label: "Ground", value: policy.ground });
    rows.push({
      label: "Hang-ups",
      value: policy.hangUp ? "count" : `left out: ${policy.hangUpReason ?? ""}`,
    });
    all(ruleFields);
    if (!policy.projectiles) rows.push({ label: "May be thrown", value: "the declared projectile, whole" });
  }
  return (
    <div className="sheet-inline">
      <Table
        caption="Air, ground and policy"
        rows={rows}
        rowKey={(each) => each.label}
        empty="Not known here."
        columns={[
          { key: "label", head: "What", rowHead: true, cell: (each) => each.label },
          { key: "value", head: "Taken as", cell: (each) => each.value },
        ]}
      />
    </div>
  );
}
