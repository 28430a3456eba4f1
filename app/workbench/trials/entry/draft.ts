/** A throw that is typed and not yet written down, kept in this browser through a reload. Pure. */
import { z } from "zod";
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import type { tuning } from "@/lib/throw";
import type { Dimension, UnitSystem } from "@/lib/units";
import { RESULTS } from "../log/log";
import { FIELDS, type FieldName, type ThrowForm } from "./throw-form";

const quantity = z.strictObject({ text: z.string().max(100), value: z.number().nullable() });
const words = z.string().max(500);
const draftSchema = z.strictObject({
  at: words,
  result: z.enum(RESULTS),
  quantities: z.record(z.string(), quantity),
  setting: quantity,
  other: words,
  otherValue: quantity,
  means: words,
  windBy: words,
  note: words,
});
const keptSchema = z.strictObject({ version: z.literal(1), drafts: z.record(z.string(), draftSchema) });
type Drafts = z.output<typeof keptSchema>["drafts"];

const NAMES = Object.keys(FIELDS) as FieldName[];
/** Of so many machines; the oldest goes first. */
const MOST = 10;

function draftsIn(text: string | null): Drafts {
  try {
    const read = keptSchema.safeParse(JSON.parse(text ?? "null"));
    return read.success ? read.data.drafts : {};
  } catch {
    return {};
  }
}

/** What stands in the form by its values: other units, or other words for the same number, are the same. */
export function meaning(form: ThrowForm): string {
  const of = ({ value, text }: Quantity) => value ?? text;
  const { quantities, setting, otherValue, ...rest } = form;
  return JSON.stringify([rest, NAMES.map((name) => of(quantities[name])), of(setting), of(otherValue)]);
}

/** All drafts with this machine's, or without it; null where none is left. */
export function withDraft(text: string | null, of: string, form: ThrowForm | null): string | null {
  const others = Object.entries(draftsIn(text)).filter(([key]) => key !== of);
  const all = [...others, ...(form ? [[of, form] as const] : [])].slice(-MOST);
  return all.length === 0 ? null : JSON.stringify({ version: 1, drafts: Object.fromEntries(all) });
}

/** Null where none is kept of this machine, or where it cannot be read: a throw is soon typed anew. */
export function draftFrom(
  text: string | null,
  of: string,
  setting: tuning.Knob,
  knobs: readonly tuning.Knob[],
  system: UnitSystem,
): ThrowForm | null {
  const found = draftsIn(text)[of];
  if (!found) return null;
  // What has a value is written anew: the units may be others by now.
  const anew = (kept: Quantity | undefined, dimension: Dimension): Quantity =>
    !kept || kept.value === null
      ? (kept ?? { text: "", value: null })
      : quantityOf(kept.value, dimension, system);
  const other = knobs.find(({ name }) => name === found.other);
  const quantities = NAMES.map((name) => [name, anew(found.quantities[name], FIELDS[name].dimension)]);
  return {
    ...found,
    quantities: Object.fromEntries(quantities) as Record<FieldName, Quantity>,
    setting: anew(found.setting, setting.dimension),
    otherValue: anew(other ? found.otherValue : undefined, other?.dimension ?? "length"),
  };
}
