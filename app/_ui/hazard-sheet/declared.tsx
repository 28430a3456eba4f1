/** What the sheet was computed from, as declared. */
import type { Air, Declaration, Policy } from "@/lib/throw";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";
import { Table } from "../table";
import { parameterWords } from "./words";

interface Row {
  label: string;
  value: string;
  tolerance: string;
}

export function DeclaredTable({ declaration, system }: { declaration: Declaration; system: UnitSystem }) {
  const { machine, projectile, tolerances = {} } = declaration;
  const row = (name: string, value: number, dimension: Dimension, label: string): Row => {
    const spread = tolerances[name];
    return {
      label,
      value: formatQuantity(value, dimension, system),
      tolerance:
        spread === undefined
          ? "not declared"
          : spread === 0
            ? "exact"
            : `± ${formatQuantity(spread, dimension, system)}`,
    };
  };
  const rows: Row[] = [];
  for (const [name, value] of Object.entries(machine)) {
    if (typeof value !== "number") continue;
    const { label, dimension } = parameterWords(machine.kind, name);
    rows.push(row(name, value, dimension, label));
  }
  rows.push(row("mass", projectile.mass, "mass", "Projectile mass"));
  rows.push(row("diameter", projectile.diameter, "length", "Projectile diameter"));
  rows.push({ label: "Projectile shape", value: projectile.shape.replace("-", " "), tolerance: "" });
  if (projectile.drag) {
    const { low, nominal, high } = projectile.drag;
    rows.push({
      label: "Drag coefficient, low, expected, high",
      value: `${low}, ${nominal}, ${high}`,
      tolerance: "",
    });
  }
  if (projectile.lift !== undefined) {
    rows.push({ label: "Largest lift coefficient", value: String(projectile.lift), tolerance: "" });
  }
  return (
    <Table
      caption="As declared"
      rows={rows}
      rowKey={(each) => each.label}
      columns={[
        { key: "label", head: "What", rowHead: true, cell: (each) => each.label },
        { key: "value", head: "Declared", number: true, cell: (each) => each.value },
        { key: "tolerance", head: "Tolerance", number: true, cell: (each) => each.tolerance },
      ]}
    />
  );
}

/** The air in which it may be fired and the safety officer's margins. */
export function ConditionsTable({
  air,
  policy,
  system,
}: {
  air?: Air | undefined;
  policy?: Policy | undefined;
  system: UnitSystem;
}) {
  const rows: { label: string; value: string }[] = [];
  const add = (label: string, value: number | undefined, dimension: Dimension) => {
    if (value !== undefined) rows.push({ label, value: formatQuantity(value, dimension, system) });
  };
  const wind = air?.wind;
  add("Mean wind", wind?.speed ?? 0, "speed");
  add("Top gust", wind?.gust, "speed");
  if (wind) add("Wind blows towards, from the bearing", wind.direction, "angle");
  // The contract takes degrees Celsius too; nothing on Earth is as cold as 60 K.
  const { temperature } = air ?? {};
  add(
    "Air temperature",
    temperature !== undefined && temperature <= 60 ? temperature + 273.15 : temperature,
    "temperature",
  );
  add("Station pressure", air?.pressure, "pressure");
  add("Altitude", air?.altitude, "distance");
  if (policy) {
    add("Margin on first impacts", policy.margin, "ratio");
    add("Aim, either way", policy.angles.aim, "angle");
    add("Lean and twist, either way", policy.angles.lean, "angle");
    add("Torn sling, either way", policy.angles.tornSling, "angle");
    add("Least distance forward", policy.minimum.forward, "distance");
    add("Least distance backward", policy.minimum.backward, "distance");
    add("Least distance to the side", policy.minimum.side, "distance");
    rows.push({ label: "Ground", value: policy.ground });
    rows.push({ label: "Hang-ups", value: policy.hangUp ? "count" : "left out" });
  }
  return (
    <Table
      caption="Air and policy"
      rows={rows}
      rowKey={(each) => each.label}
      columns={[
        { key: "label", head: "What", rowHead: true, cell: (each) => each.label },
        { key: "value", head: "Taken as", number: true, cell: (each) => each.value },
      ]}
    />
  );
}
