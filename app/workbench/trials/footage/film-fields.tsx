"use client";
/** What has to be known of a film: its rates, its scale, where it looks. */
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { QuantityField } from "@/app/_ui/quantity-field";
import styles from "../trials.module.css";
import { FILM_FIELDS, type FilmField, type FilmForm } from "./film-form";
import type { Pace } from "./film-told";

const PACES: readonly { value: Exclude<Pace, "unsaid">; label: string; note: string }[] = [
  { value: "true", label: "At true speed", note: "A second of the file is a second." },
  { value: "slow", label: "In slow motion", note: "More frames a second than it plays." },
  { value: "unknown", label: "Nobody knows", note: "Time is taken from the fall." },
];

export function FilmFields({
  form,
  errors,
  onChange,
}: {
  form: FilmForm;
  errors: Partial<Record<FilmField, string>>;
  onChange: (form: FilmForm) => void;
}) {
  const field = (name: FilmField) => {
    const { label, dimension, help, optional } = FILM_FIELDS[name];
    return (
      <QuantityField
        key={name}
        id={`film-${name}`}
        label={label}
        fieldName={label}
        dimension={dimension}
        help={help}
        optional={optional}
        quantity={form[name]}
        onChange={(quantity) => onChange({ ...form, [name]: quantity })}
        error={form[name].text === "" ? null : (errors[name] ?? null)}
      />
    );
  };
  const wrong = CAMERA.some((name) => errors[name]);
  return (
    <>
      <ChoiceTiles
        id="film-pace"
        legend="How it was filmed"
        choices={PACES}
        value={form.pace === "unsaid" ? null : form.pace}
        onChange={(pace) => onChange({ ...form, pace })}
      />
      <div className={styles.fields}>
        {field("plays")}
        {form.pace === "slow" ? field("filmed") : null}
        {field("length")}
        {field("length2")}
      </div>
      <ChoiceTiles
        id="film-towards"
        legend="In the picture the machine throws to the"
        choices={[
          { value: "right", label: "Right" },
          { value: "left", label: "Left" },
        ]}
        value={form.towards}
        onChange={(towards) => onChange({ ...form, towards })}
      />
      <details className={styles.more} open={wrong || undefined}>
        <summary>
          How the camera stood and how well all is known{wrong ? ": something is missing" : ""}
        </summary>
        <div className={styles.fields}>{CAMERA.map(field)}</div>
        <p>
          Taken for granted of the camera: it does not move, and its lens draws straight lines straight. One
          that draws the edge of the picture 3 % too large or too small makes the speed wrong by up to 3 % and
          the direction by a degree or two, and none of that is in the ±: film from far off, zoomed in, the
          throw in the middle of the picture, no wide lens. Rows of a frame may be read one after the other,
          up or down, for as long as a frame takes: that is in the ±, in a line of its own.
        </p>
      </details>
    </>
  );
}

const CAMERA = [
  "distance",
  "square",
  "level",
  "depth",
  "lengthUncertainty",
  "tap",
] as const satisfies readonly FilmField[];
