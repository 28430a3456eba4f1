/** What the sheet was computed from, as declared. */
import type { Declaration } from "@/lib/throw";
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
          ? "default"
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
