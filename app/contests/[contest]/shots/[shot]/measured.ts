/** What a judge entered of a landing, in words: every number of every method, so that anybody can work it out again. */
import { coordinates } from "@/app/_ui/words";
import { FIRING_POINT, type Field, type LandedFix, METHODS } from "@/lib/survey";
import { formatQuantity, type UnitSystem } from "@/lib/units";

/** By id: what stands on each peg. */
export type PegNames = Readonly<Record<string, string>>;

export function measuredWords(fix: LandedFix, system: UnitSystem, pegs: PegNames): string {
  const { title, fields } = METHODS.find(({ method }) => method === fix.method) ?? {
    title: fix.method,
    fields: [],
  };
  return `${title}: ${listed(fields, fix as unknown as Entered, system, pegs)}`;
}

type Entered = Record<string, unknown>;

function listed(fields: readonly Field[], entered: Entered, system: UnitSystem, pegs: PegNames): string {
  const { latitude, longitude } = entered;
  const place =
    typeof latitude === "number" && typeof longitude === "number"
      ? [`position ${coordinates({ latitude, longitude })}`]
      : [];
  const rest = fields
    .filter(({ name }) => name !== "latitude" && name !== "longitude" && entered[name] !== undefined)
    .map((field) => `${field.label.toLowerCase()} ${valueWords(field, entered[field.name], system, pegs)}`);
  return [...place, ...rest].join(", ");
}

function valueWords(field: Field, value: unknown, system: UnitSystem, pegs: PegNames): string {
  if (field.type === "number") return formatQuantity(Number(value), field.dimension, system, { digits: 2 });
  if (field.type === "peg")
    return value === FIRING_POINT ? "the firing point" : (pegs[String(value)] ?? "a peg that is not there");
  if (field.type === "choice")
    return (
      field.options.find((option) => option.value === String(value))?.label ?? String(value)
    ).toLowerCase();
  return (value as Entered[]).map((row) => `(${listed(field.fields, row, system, pegs)})`).join(" ");
}
