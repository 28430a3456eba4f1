"use client";
/** What has to be known of a film: its rates, its scale, where it looks. */
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { type Quantity, QuantityField, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import type { HazardRequest } from "@/lib/throw";
import type { Dimension, UnitSystem } from "@/lib/units";
import styles from "../trials.module.css";
import type { FilmTold } from "./marks";

type Name = "plays" | "filmed" | "length" | "lengthUncertainty" | "tap" | "level";
export type FilmForm = Record<Name, Quantity> & { towards: "right" | "left" };

const FIELDS: Record<Name, { label: string; dimension: Dimension; help: string; least: number }> = {
  plays: {
    label: "Frames a second of the file",
    dimension: "ratio",
    help: "As it plays. A phone usually has 30 or 60.",
    least: 1,
  },
  filmed: {
    label: "Frames a second as filmed",
    dimension: "ratio",
    help: "Higher for slow motion: 240 where a second takes eight at 30.",
    least: 1,
  },
  length: {
    label: "Known length",
    dimension: "length",
    help: "Between two points in the plane of the throw: pivot to tip, a pole beside it.",
    least: 0.05,
  },
  lengthUncertainty: {
    label: "How well it is known",
    dimension: "length",
    help: "Standard: two of three measurements lie within it.",
    least: 0,
  },
  tap: {
    label: "How closely a point is hit",
    dimension: "ratio",
    help: "Picture elements of the film, standard: 2 with the loupe, more where it is blurred.",
    least: 0.2,
  },
  level: {
    label: "The camera leans at most",
    dimension: "angle",
    help: "Either way. A phone held up leans by 2 or 3 degrees.",
    least: 0,
  },
};
const NAMES = Object.keys(FIELDS) as Name[];

export function startingFilm(request: HazardRequest, system: UnitSystem): FilmForm {
  const { longArm, armLength } = request.machine as { longArm?: number; armLength?: number };
  return {
    towards: "right",
    plays: quantityOf(30, "ratio", system),
    filmed: quantityOf(null, "ratio", system),
    length: quantityOf(longArm ?? armLength, "length", system),
    lengthUncertainty: quantityOf(0.01, "length", system),
    tap: quantityOf(2, "ratio", system),
    level: quantityOf(2, "angle", system),
  };
}

type Told =
  | { ok: true; film: FilmTold; plays: number }
  | { ok: false; errors: Readonly<Record<string, string>>; plays: number | null };

export function filmTold(form: FilmForm, system: UnitSystem): Told {
  const errors: Record<string, string> = {};
  for (const name of NAMES) {
    const { label, dimension, least } = FIELDS[name];
    const problem = quantityProblem(label, form[name], dimension, system, name === "filmed");
    const { value } = form[name];
    if (problem) errors[name] = problem;
    else if (value !== null && (value < least || value > 20_000))
      errors[name] = `${label}: enter at least ${least}.`;
  }
  const plays = errors.plays ? null : form.plays.value;
  if (Object.keys(errors).length > 0 || plays === null) return { ok: false, errors, plays };
  return {
    ok: true,
    plays,
    film: {
      towards: form.towards,
      plays,
      filmed: form.filmed.value ?? plays,
      length: form.length.value as number,
      lengthUncertainty: form.lengthUncertainty.value as number,
      tap: form.tap.value as number,
      level: form.level.value as number,
    },
  };
}

export function FilmFields({
  fields,
  errors,
  onChange,
}: {
  fields: FilmForm;
  errors: Readonly<Record<string, string>>;
  onChange: (fields: FilmForm) => void;
}) {
  return (
    <>
      <div className={styles.fields}>
        {NAMES.map((name) => (
          <QuantityField
            key={name}
            id={`film-${name}`}
            label={FIELDS[name].label}
            fieldName={FIELDS[name].label}
            dimension={FIELDS[name].dimension}
            help={FIELDS[name].help}
            optional={name === "filmed"}
            quantity={fields[name]}
            onChange={(quantity) => onChange({ ...fields, [name]: quantity })}
            error={fields[name].text === "" ? null : (errors[name] ?? null)}
          />
        ))}
      </div>
      <ChoiceTiles
        id="film-towards"
        legend="In the picture the machine throws to the"
        choices={[
          { value: "right", label: "Right" },
          { value: "left", label: "Left" },
        ]}
        value={fields.towards}
        onChange={(towards) => onChange({ ...fields, towards })}
      />
    </>
  );
}
