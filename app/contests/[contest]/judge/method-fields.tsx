"use client";
/** The fields of one way to measure, as lib/survey describes them. What may stay empty is folded away. */
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { positionText } from "@/app/_ui/position";
import { PositionField } from "@/app/_ui/position-field";
import { QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import { FIRING_POINT, type Field } from "@/lib/survey";
import { parseQuantity } from "@/lib/units";
import { arranged } from "./arranged";
import { type Complaints, nothing, POSITION, quantityIn, rowsIn, type Values, wordIn } from "./draft";
import type { Range, Stand } from "./entry";
import styles from "./judge.module.css";
import { Keypad } from "./keypad";
import { useKeysShown } from "./keys-shown";
import { SampleTaker } from "./sample-taker";
import { TapMap } from "./tap-map";

export interface MethodFieldsProps {
  fields: readonly Field[];
  values: Values;
  onChange: (values: Values) => void;
  complaints: Complaints;
  shot: Stand;
  range: Pick<Range, "pegs" | "declination">;
  /** Of a row in a list: "bearings.0.". */
  path?: string;
  /** For who types line after line: no words of help, and nothing that may be left as it usually is. */
  terse?: boolean;
}

export function MethodFields(props: MethodFieldsProps) {
  const system = useUnits();
  const { fields, values, range, complaints, path = "" } = props;
  const { position, measured, chosen, rest } = arranged(fields, values, range);
  const wrong = rest.some(({ name }) => complaints[path + name]);
  const one = (field: Field) => <OneField key={field.name} {...props} field={field} />;
  return (
    <>
      {fields.some(({ name }) => name === "metresPerPixel") && (
        <TapMap
          shot={props.shot}
          range={range}
          onTap={(spot, pixel) =>
            props.onChange({
              ...values,
              [POSITION]: positionText(spot),
              metresPerPixel: quantityOf(pixel, "distance", system),
            })
          }
        />
      )}
      {position && <Place {...props} />}
      <div className={styles.pair}>{measured.map(one)}</div>
      {chosen.length > 0 && <div className={styles.pair}>{chosen.map(one)}</div>}
      {rest.length > 0 && !props.terse && (
        <details className={styles.rest} open={wrong || undefined}>
          <summary>More: what may be left as it usually is</summary>
          {rest.map(one)}
        </details>
      )}
    </>
  );
}

function Place({ fields, values, onChange, complaints, path = "" }: MethodFieldsProps) {
  const system = useUnits();
  const has = (name: string) => fields.some((field) => field.name === name);
  return (
    <PositionField
      id={path + POSITION}
      text={wordIn(values, POSITION)}
      // Typed over, it is no longer what the phone was so sure of.
      onChange={(text) =>
        onChange({ ...values, [POSITION]: text, ...(has("accuracy") && { accuracy: nothing }) })
      }
      onPhone={({ latitude, longitude, accuracy }) =>
        onChange({
          ...values,
          [POSITION]: `${latitude.toFixed(7)}, ${longitude.toFixed(7)}`,
          ...(has("accuracy") && { accuracy: quantityOf(accuracy, "distance", system), accuracyLevel: "95" }),
        })
      }
      error={complaints[path + POSITION] ?? null}
    />
  );
}

function OneField(props: MethodFieldsProps & { field: Field }) {
  const { field, values, onChange, complaints, shot, range, path = "", terse } = props;
  const { name, label, required } = field;
  const help = terse ? undefined : field.help;
  const set = (cell: Values[string]) => onChange({ ...values, [name]: cell });
  const id = path + name;
  const error = complaints[id] ?? null;
  if (field.type === "number") return <NumberField {...props} field={field} />;
  if (field.type === "list") return <ListField {...props} field={field} />;
  const choices =
    field.type === "peg"
      ? [
          { value: FIRING_POINT, label: `Firing point ${shot.firingPointNumber}` },
          ...range.pegs.map((peg) => ({ value: peg.id, label: peg.name })),
        ]
      : field.options;
  // A compass turns by what the site has; true north is what an empty field means.
  const first =
    field.type === "peg" && !required ? [] : [{ value: "", label: required ? "Choose" : "As usual" }];
  return (
    <SelectField
      id={id}
      label={label}
      help={help}
      optional={!required && !terse}
      value={wordIn(values, name) || (field.type === "peg" && !required ? FIRING_POINT : "")}
      onChange={(event) => set(event.target.value)}
      choices={[...first, ...choices]}
      error={error}
    />
  );
}

function NumberField({
  field,
  values,
  onChange,
  complaints,
  shot,
  path = "",
  terse,
}: MethodFieldsProps & { field: Extract<Field, { type: "number" }> }) {
  const system = useUnits();
  const { field: shown, show } = useKeysShown();
  const [thumb, setThumb] = useState(false);
  useEffect(() => setThumb(matchMedia("(pointer: coarse)").matches), []);
  const { name, label, required, dimension } = field;
  const help = terse ? undefined : field.help;
  const id = path + name;
  const quantity = quantityIn(values, name);
  return (
    <>
      <QuantityField
        id={id}
        label={label}
        fieldName={label}
        dimension={dimension}
        quantity={quantity}
        onChange={(next) => onChange({ ...values, [name]: next })}
        help={id === "bearing" ? `It aims at ${bearingText(shot.bearing)}.` : help}
        optional={!required}
        error={complaints[id] ?? null}
        ownKeys={thumb}
        onFocus={() => show(id)}
      />
      {thumb && shown === id && (
        <div className={styles.keys}>
          <Keypad
            label={label}
            dimension={dimension}
            text={quantity.text}
            onText={(text) => {
              const read = parseQuantity(text, dimension, system);
              onChange({ ...values, [name]: { text, value: read.ok ? read.value : null } });
            }}
            onNext={() => focusAfter(id)}
          />
        </div>
      )}
    </>
  );
}

/** The next number to type, else the button that saves. */
function focusAfter(id: string): void {
  const here = document.getElementById(id);
  const all = [...(here?.closest("form")?.querySelectorAll<HTMLElement>(".field-with-unit input") ?? [])];
  const next = all
    .slice(all.indexOf(here as HTMLElement) + 1)
    .find((one) => one.closest("details:not([open])") === null);
  (next ?? here?.closest("form")?.querySelector<HTMLElement>("button[type=submit]"))?.focus();
}

function ListField(props: MethodFieldsProps & { field: Extract<Field, { type: "list" }> }) {
  const { field, values, onChange, complaints, path = "" } = props;
  const rows = rowsIn(values, field);
  const set = (next: Values[]) => onChange({ ...values, [field.name]: next });
  return (
    <fieldset className={styles.list}>
      <legend>{field.label}</legend>
      {!props.terse && <p className="field-help">{field.help}</p>}
      {complaints[path + field.name] && <p className="field-error">{complaints[path + field.name]}</p>}
      {field.name === "samples" && <SampleTaker onSamples={set} />}
      {rows.map((row, index) => (
        <div
          key={index}
          className={styles.row}
          role="group"
          aria-label={`${field.label}, number ${index + 1}`}
        >
          <strong>{index + 1}.</strong>
          <MethodFields
            {...props}
            fields={field.fields}
            values={row}
            onChange={(next) => set(rows.map((one, at) => (at === index ? next : one)))}
            path={`${path}${field.name}.${index}.`}
          />
          {rows.length > field.fewest && (
            <Button look="quiet" onClick={() => set(rows.filter((_, at) => at !== index))}>
              Take number {index + 1} out
            </Button>
          )}
        </div>
      ))}
      {rows.length < field.most && <Button onClick={() => set([...rows, {}])}>One more</Button>}
    </fieldset>
  );
}
