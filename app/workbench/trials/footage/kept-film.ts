/** What was tapped on the last film and told of it, kept in this browser through a reload; never the film itself. Pure. */
import { z } from "zod";
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/lib/units";
import { FILM_FIELDS, type FilmField, type FilmForm } from "./film-form";
import type { Tapped } from "./marks";

const finite = z.number();
const pixel = z.tuple([finite, finite]).nullable();
const quantity = z.strictObject({ text: z.string().max(100), value: finite.nullable() });
const FIELDS = Object.keys(FILM_FIELDS) as FilmField[];

const schema = z.strictObject({
  version: z.literal(1),
  file: z.strictObject({ name: z.string().max(500), size: finite, modified: finite }),
  tapped: z.strictObject({
    pivot: pixel,
    from: pixel,
    to: pixel,
    plumbTop: pixel,
    plumbFoot: pixel,
    from2: pixel,
    to2: pixel,
    frames: z
      .array(z.strictObject({ time: finite, timed: z.boolean(), tip: pixel, projectile: pixel }))
      .max(2000),
    heldUntil: finite.nullable(),
    freeFrom: finite.nullable(),
  }),
  quantities: z.record(z.string(), quantity),
  towards: z.enum(["right", "left"]),
  pace: z.enum(["unsaid", "true", "slow", "unknown"]),
});

export interface FilmFile {
  name: string;
  size: number;
  modified: number;
}

export interface KeptFilm {
  file: FilmFile;
  tapped: Tapped;
  form: FilmForm;
}

export const fileOf = ({ name, size, lastModified }: File): FilmFile => ({
  name: name.slice(0, 500),
  size,
  modified: lastModified,
});

export const sameFile = (a: FilmFile, b: FilmFile) =>
  a.name === b.name && a.size === b.size && a.modified === b.modified;

export function filmToText({ file, tapped, form }: KeptFilm): string {
  const { towards, pace } = form;
  const quantities = Object.fromEntries(FIELDS.map((name) => [name, form[name]]));
  return JSON.stringify({ version: 1, file, tapped, quantities, towards, pace });
}

/** Null where nothing was kept or it cannot be read: a film is soon tapped anew. */
export function filmFromText(text: string | null, system: UnitSystem): KeptFilm | null {
  if (text === null) return null;
  try {
    const { file, tapped, quantities, towards, pace } = schema.parse(JSON.parse(text));
    // What has a value is written anew: the units may be others by now.
    const fields = FIELDS.map((name): [FilmField, Quantity] => {
      const kept = quantities[name] ?? { text: "", value: null };
      return [name, kept.value === null ? kept : quantityOf(kept.value, FILM_FIELDS[name].dimension, system)];
    });
    return {
      file,
      tapped,
      form: { ...(Object.fromEntries(fields) as Record<FilmField, Quantity>), towards, pace },
    };
  } catch {
    return null;
  }
}
