/** What the sheet was computed from, as declared: choices, numbers with their tolerances, points, strengths. */
import {
  type ChoiceSpec,
  choicesOf,
  dragFields,
  type FieldSpec,
  machineFields,
  projectileFields,
  strengthChoices,
  strengthFields,
  tablesOf,
} from "@/app/_ui/machine-form/form/fields";
import { at } from "@/app/_ui/machine-form/form/specs";
import { type Declaration, machineKind, PROJECTILE_TOLERANCE } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Table } from "../table";
import { withinText } from "./words";

interface Row {
  label: string;
  /** On the drawing beside it. */
  letter?: string | undefined;
  value: string;
  tolerance: string;
}

type Letters = Readonly<Record<string, string>>;

/** ± of a parameter, and whether it is the usual one because none was declared; null for what has none. */
export function toleranceIn(
  { machine, projectile, tolerances }: Declaration,
  name: string,
): { spread: number; assumed: boolean } | null {
  const own = tolerances?.[name];
  if (own !== undefined) return { spread: own, assumed: false };
  if (name === "mass" || name === "diameter") {
    return { spread: PROJECTILE_TOLERANCE * projectile[name], assumed: true };
  }
  const info = machineKind(machine.kind).parameters.find((each) => each.name === name);
  const value = at({ machine }, `machine.${name}`);
  if (!info || info.onlyNominal || typeof value !== "number") return null;
  const { share = 0, plus = 0 } = info.tolerance ?? {};
  return { spread: share * Math.abs(value) + plus, assumed: true };
}

function toleranceText(declaration: Declaration, { path, dimension }: FieldSpec, system: UnitSystem): string {
  const found = toleranceIn(declaration, path.replace(/^(machine|projectile)\./, ""));
  if (!found) return "";
  const { spread, assumed } = found;
  const star = assumed ? " *" : "";
  return spread > 0 ? `± ${withinText(spread, spread, dimension, system)}${star}` : `exact${star}`;
}

/** A choice as it stands, when it stands at more than "not declared". */
function choiceRow(spec: ChoiceSpec, declaration: Declaration): Row[] {
  const found = spec.reads ? spec.reads(declaration) : at(declaration, spec.path);
  const option = spec.options.find(({ value }) => value === found);
  return option && option.value !== "none" ? [{ label: spec.label, value: option.label, tolerance: "" }] : [];
}

function fieldRow(
  spec: FieldSpec,
  declaration: Declaration,
  system: UnitSystem,
  tolerance: boolean,
  letters: Letters = {},
): Row[] {
  const value = at(declaration, spec.path);
  if (typeof value !== "number") return [];
  return [
    {
      label: spec.label,
      letter: letters[spec.path.replace(/^machine\./, "")],
      value: formatQuantity(value, spec.dimension, system),
      tolerance: tolerance ? toleranceText(declaration, spec, system) : "",
    },
  ];
}

/** Measured points as one line: "0 m 0 N; 0.8 m 350 N". */
function pointRows(declaration: Declaration, system: UnitSystem, letters: Letters): Row[] {
  return tablesOf(declaration.machine.kind).flatMap(({ path, name, label, columns }) => {
    const points = at(declaration, path);
    if (!Array.isArray(points)) return [];
    const written = points.map((point: Record<string, number>) =>
      columns.map(({ name, dimension }) => formatQuantity(point[name] ?? 0, dimension, system)).join(" "),
    );
    return [{ label, letter: letters[name], value: written.join("; "), tolerance: "" }];
  });
}

export function DeclaredTable({
  declaration,
  system,
  letters = {},
}: {
  declaration: Declaration;
  system: UnitSystem;
  /** Of the drawing beside it, by parameter. */
  letters?: Letters;
}) {
  const { machine, projectile } = declaration;
  const strengths = new Set(strengthChoices(machine.kind).map(({ path }) => path));
  const asked = choicesOf(machine.kind).filter(({ path }) => !strengths.has(path));
  const has = (path: string) => at(declaration, path) !== undefined;
  const rows: Row[] = [
    ...asked.flatMap((spec) => choiceRow(spec, declaration)),
    ...machineFields(machine.kind).flatMap((spec) => fieldRow(spec, declaration, system, true, letters)),
    ...pointRows(declaration, system, letters),
    ...projectileFields.flatMap((spec) => fieldRow(spec, declaration, system, true)),
    { label: "Projectile shape", value: projectile.shape.replace("-", " "), tolerance: "" },
    ...dragFields.flatMap((spec) => fieldRow(spec, declaration, system, false)),
  ];
  const borne: Row[] = declaration.strengths
    ? [
        ...strengthChoices(machine.kind)
          // Knots and grade mean nothing of a sling or an arm that is not declared.
          .filter(({ when, path }) => !when || has(path))
          .flatMap((spec) => choiceRow(spec, declaration)),
        ...strengthFields(machine.kind).flatMap((spec) => fieldRow(spec, declaration, system, false)),
      ]
    : [];
  return (
    <div>
      <Table
        caption="As declared"
        rows={rows}
        rowKey={(each) => each.label}
        columns={[
          {
            key: "label",
            head: "What",
            rowHead: true,
            cell: ({ letter, label }) => (letter ? `${letter}. ${label}` : label),
          },
          { key: "value", head: "Declared", cell: (each) => each.value },
          { key: "tolerance", head: "Tolerance", number: true, cell: (each) => each.tolerance },
        ]}
      />
      {rows.some(({ tolerance }) => tolerance.endsWith("*")) ? (
        <p className="sheet-small">* Nobody declared it: the usual tolerance was taken.</p>
      ) : null}
      {borne.length > 0 ? (
        <div className="sheet-inline">
          <Table
            caption="Declared strengths"
            rows={borne}
            rowKey={(each) => each.label}
            columns={[
              { key: "label", head: "What", rowHead: true, cell: (each) => each.label },
              { key: "value", head: "Declared", cell: (each) => each.value },
            ]}
          />
        </div>
      ) : null}
    </div>
  );
}
