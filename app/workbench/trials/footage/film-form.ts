/** What has to be known of a film as it stands in a form, and as it is meant. Pure. */
import { type Quantity, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import type { HazardRequest } from "@/lib/throw";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";
import type { FilmTold, Pace } from "./film-told";

export const FILM_FIELDS = {
  plays: {
    label: "Frames a second of the file",
    dimension: "ratio",
    help: "As it plays. A phone usually has 30 or 60.",
    least: 1,
    most: 2000,
    optional: false,
  },
  filmed: {
    label: "Frames a second as filmed",
    dimension: "ratio",
    help: "120 or 240 with most phones: so many in a second of the throw.",
    least: 1,
    most: 20_000,
    optional: false,
  },
  length: {
    label: "Known length",
    dimension: "length",
    help: "Between two points in the plane of the throw: pivot to tip, a pole beside it.",
    least: 0.05,
    most: 500,
    optional: false,
  },
  length2: {
    label: "Second known length",
    dimension: "length",
    help: "Better across the first: level where that stands. The two check each other.",
    least: 0.05,
    most: 500,
    optional: true,
  },
  lengthUncertainty: {
    label: "How well lengths are known",
    dimension: "length",
    help: "The ± that two of three measurements of it would lie within.",
    least: 0,
    most: 10,
    optional: false,
  },
  depth: {
    label: "Lengths lie off the plane by at most",
    dimension: "length",
    help: "Nearer to the camera or farther than the way of the projectile.",
    least: 0,
    most: 20,
    optional: false,
  },
  distance: {
    label: "Camera to the plane of the throw",
    dimension: "distance",
    help: "Without it: as near as a phone without zoom must stand to see as much.",
    least: 0.5,
    most: 2000,
    optional: true,
  },
  square: {
    label: "Camera off the square at most",
    dimension: "angle",
    help: "To a side, up or down, from straight at the plane in which the projectile flies. By eye 5°.",
    least: 0,
    most: 45,
    optional: false,
  },
  level: {
    label: "The camera leans at most",
    dimension: "angle",
    help: "Either way; a tapped plumb line takes its place. A phone held up leans by 2 or 3 degrees.",
    least: 0,
    most: 45,
    optional: false,
  },
  tap: {
    label: "How closely a point is hit",
    dimension: "ratio",
    help: "The ± in picture elements that two of three taps lie within: 2 with the loupe. Where it is blurred tap the middle of the streak and give a quarter of its length.",
    least: 0.2,
    most: 500,
    optional: false,
  },
} as const satisfies Record<
  string,
  { label: string; dimension: Dimension; help: string; least: number; most: number; optional: boolean }
>;
export type FilmField = keyof typeof FILM_FIELDS;
const NAMES = Object.keys(FILM_FIELDS) as FilmField[];

export type FilmForm = Record<FilmField, Quantity> & { towards: "right" | "left"; pace: Pace };

export function startingFilm(request: HazardRequest, system: UnitSystem): FilmForm {
  const { longArm, armLength } = request.machine as { longArm?: number; armLength?: number };
  const starts: Partial<Record<FilmField, number | undefined>> = {
    plays: 30,
    length: longArm ?? armLength,
    lengthUncertainty: 0.01,
    depth: 0.2,
    square: 5,
    level: 2,
    tap: 2,
  };
  const fields = NAMES.map((name) => [name, quantityOf(starts[name], FILM_FIELDS[name].dimension, system)]);
  return { ...(Object.fromEntries(fields) as Record<FilmField, Quantity>), towards: "right", pace: "unsaid" };
}

type Read =
  | { ok: true; film: FilmTold; plays: number }
  | { ok: false; errors: Partial<Record<FilmField, string>>; plays: number | null };

export function filmTold(form: FilmForm, system: UnitSystem): Read {
  const errors: Partial<Record<FilmField, string>> = {};
  for (const name of NAMES) {
    const { label, dimension, least, most, optional } = FILM_FIELDS[name];
    if (name === "filmed" && form.pace !== "slow") continue;
    const problem = quantityProblem(label, form[name], dimension, system, optional);
    const { value } = form[name];
    if (problem) errors[name] = problem;
    else if (value !== null && (value < least || value > most))
      errors[name] = `${label}: enter ${
        value < least
          ? `at least ${formatQuantity(least, dimension, system)}`
          : `at most ${formatQuantity(most, dimension, system)}`
      }.`;
  }
  const plays = errors.plays ? null : form.plays.value;
  if (Object.keys(errors).length > 0 || plays === null) return { ok: false, errors, plays };
  const number = (name: FilmField) => form[name].value as number;
  return {
    ok: true,
    plays,
    film: {
      towards: form.towards,
      pace: form.pace,
      plays,
      filmed: form.pace === "slow" ? number("filmed") : plays,
      length: number("length"),
      length2: form.length2.value,
      lengthUncertainty: number("lengthUncertainty"),
      depth: number("depth"),
      distance: form.distance.value,
      square: number("square"),
      level: number("level"),
      tap: number("tap"),
    },
  };
}
