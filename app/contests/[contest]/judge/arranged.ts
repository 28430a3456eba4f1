/** In which order the fields of a way to measure are asked for, on a form and on paper. Pure. */
import type { Field } from "@/lib/survey";
import { hasPosition, isAsked, type Values } from "./draft";

export interface Arranged {
  /** Latitude and longitude are one text, which comes first. */
  position: boolean;
  /** Figures: they are typed for every shot. */
  measured: Field[];
  /** What stands for the day. */
  chosen: Field[];
  /** What may be left as it usually is. */
  rest: Field[];
}

export function arranged(
  fields: readonly Field[],
  values: Values,
  { pegs, declination }: { pegs: readonly unknown[]; declination: number },
): Arranged {
  const position = hasPosition(fields);
  const asked = fields.filter(
    (field) =>
      isAsked(field, values) && !(position && (field.name === "latitude" || field.name === "longitude")),
  );
  const isUsual = (field: Field) =>
    field.required ||
    field.when !== undefined ||
    (field.type === "peg" && pegs.length > 0) ||
    (field.name === "north" && declination !== 0);
  const isMeasured = ({ required, type }: Field) => required && type !== "choice";
  const usual = asked.filter(isUsual);
  return {
    position,
    measured: usual.filter(isMeasured),
    chosen: usual.filter((field) => !isMeasured(field)),
    rest: asked.filter((field) => !isUsual(field)),
  };
}
