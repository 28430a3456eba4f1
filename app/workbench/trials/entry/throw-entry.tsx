"use client";
/** One throw, entered in seconds: what stayed as it was is proposed, and the mark is the first field. */
import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { SelectField, TextField } from "@/app/_ui/field";
import { QuantityField } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import type { HazardRequest, tuning } from "@/lib/throw";
import { MEANS, RESULTS, type Throw } from "../log/log";
import { MEANS_LABELS, RESULT_WORDS } from "../log/words";
import styles from "../trials.module.css";
import { draftFrom } from "./draft";
import {
  asksDistance,
  FIELDS,
  type FieldName,
  formOf,
  localMinute,
  proposedForm,
  readThrow,
  type ThrowForm,
} from "./throw-form";
import { useDraft } from "./use-draft";

export function ThrowEntry({
  setting,
  knobs,
  request,
  before,
  draftOf,
  correcting,
  newId,
  onWrite,
  onRefused,
  onCancel,
}: {
  setting: tuning.Knob;
  knobs: readonly tuning.Knob[];
  /** The machine that it is a throw of, as declared. */
  request: HazardRequest;
  /** The last throw of this machine. */
  before: Throw | undefined;
  /** Names the machine whose throw is kept while it is typed. */
  draftOf: string;
  correcting: Throw | null;
  newId: () => string;
  onWrite: (made: Omit<Throw, "machine" | "pieces" | "film" | "trace">) => void;
  onRefused: () => void;
  onCancel: () => void;
}) {
  const system = useUnits();
  const start = () =>
    correcting
      ? formOf(correcting, setting, knobs, system)
      : proposedForm(before, setting, knobs, request.projectile.mass, "", system);
  const { form, setForm, propose, foundAgain } = useDraft(correcting ? null : draftOf, start, (text, of) =>
    draftFrom(text, of, setting, knobs, system),
  );
  const [errors, setErrors] = useState<Readonly<Record<string, string>>>({});
  const [written, setWritten] = useState(0);
  const first = useRef<HTMLFormElement>(null);
  const asked = asksDistance(form.result);
  const others = knobs.filter(({ name, tunes }) => tunes && name !== setting.name && name !== "armRatio");
  const other = others.find(({ name }) => name === form.other);
  const set = (change: Partial<ThrowForm>) => setForm((was) => ({ ...was, ...change }));

  // Whoever corrects a throw is led to it.
  useEffect(() => {
    if (correcting) first.current?.querySelector("input")?.focus();
  }, [correcting]);

  const quantity = (name: FieldName, optional: boolean, help?: string) => (
    <QuantityField
      // Emptied for the next throw, a field is not one that was left empty.
      key={`${name}-${written}`}
      id={`throw-${name}`}
      label={FIELDS[name].label}
      fieldName={FIELDS[name].label}
      dimension={FIELDS[name].dimension}
      optional={optional}
      help={help}
      quantity={form.quantities[name]}
      onChange={(next) => setForm((was) => ({ ...was, quantities: { ...was.quantities, [name]: next } }))}
      error={errors[name] ?? null}
    />
  );

  const write = () => {
    const id = correcting?.id ?? newId();
    const read = readThrow(
      { ...form, at: form.at || localMinute(new Date()) },
      id,
      setting,
      knobs,
      system,
      request,
    );
    if (!read.ok) {
      setErrors(read.errors);
      onRefused();
      const [field] = Object.keys(read.errors);
      const wrong = document.getElementById(`throw-${field}`);
      wrong?.closest("details")?.setAttribute("open", "");
      wrong?.focus();
      return;
    }
    setErrors({});
    onWrite(read.made);
    setWritten(written + 1);
    // What was set stays as it was; the next mark is another one.
    const next: ThrowForm = {
      ...form,
      at: "",
      note: "",
      result: "landed",
      quantities: {
        ...form.quantities,
        distance: { text: "", value: null },
        aside: { text: "", value: null },
        uncertainty: { text: "", value: null },
      },
    };
    propose(next);
  };

  return (
    <form
      className={styles.entry}
      ref={first}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        write();
      }}
    >
      {foundAgain ? (
        <p>
          This throw was typed before and is not written down yet.{" "}
          <Button onClick={() => setForm(start())}>Empty the form</Button>
        </p>
      ) : null}
      <div className={styles.quick}>
        {asked === "no" ? null : quantity("distance", asked === "may")}
        <QuantityField
          id="throw-setting"
          label={setting.label}
          fieldName={setting.label}
          dimension={setting.dimension}
          quantity={form.setting}
          onChange={(next) => set({ setting: next })}
          error={errors.setting ?? null}
        />
        {quantity("mass", true)}
        {quantity("windSpeed", true)}
        {form.quantities.windSpeed.value
          ? quantity(
              "windDirection",
              false,
              "From the bearing: 0 a tail wind, 180 a head wind, 90 to the right.",
            )
          : null}
      </div>
      <ChoiceTiles
        id="throw-result"
        legend="What came of it"
        choices={RESULTS.map((value) => ({ value, label: RESULT_WORDS[value] }))}
        value={form.result}
        onChange={(result) => set({ result })}
      />
      <details className={styles.more} open={correcting !== null || undefined}>
        <summary>Offset, uncertainty, time, air, other changes, who read the wind, note</summary>
        <p>
          Distances are along the bearing, to the first impact. Where nobody read the wind or the air, or
          weighed the projectile, leave it empty: then what the revision has at this throw is kept with it and
          counts.
        </p>
        <div className={styles.fields}>
          {asked === "no" ? null : (
            <>
              {quantity("aside", true, "Negative to the left.")}
              <SelectField
                id="throw-means"
                label="Measured with"
                value={form.means}
                onChange={(event) => set({ means: event.target.value })}
                choices={[
                  { value: "", label: "nobody said" },
                  ...MEANS.map((value) => ({ value, label: MEANS_LABELS[value] })),
                ]}
              />
              {quantity(
                "uncertainty",
                true,
                "Give the ± that two of three measurements of the same mark would lie within. Left empty, what is usual for how it was measured.",
              )}
            </>
          )}
          <TextField
            id="throw-at"
            type="datetime-local"
            label="Date and time"
            help="Left empty, the moment at which it is written down."
            value={form.at}
            onChange={(event) => set({ at: event.target.value })}
            error={errors.at ?? null}
          />
          {form.quantities.windSpeed.value
            ? quantity("windHeight", false, "By hand about 2 m. Wind grows with height, and is reckoned so.")
            : null}
          {quantity("temperature", true, "Kept with this throw. Left empty, what the revision declares now.")}
          {quantity("pressure", true, "At the place itself, not reduced to sea level.")}
          <TextField
            id="throw-windBy"
            label="Who read the wind"
            help="The post or the office, no name."
            optional
            maxLength={80}
            value={form.windBy}
            onChange={(event) => set({ windBy: event.target.value })}
          />
          <SelectField
            id="throw-other"
            label="What else was changed"
            help="One number beside the setting. Where more was changed, make a revision of it on the page Machine and write the throw down as its: else the throw is judged by numbers that it did not have."
            value={other ? form.other : ""}
            onChange={(event) => set({ other: event.target.value, otherValue: { text: "", value: null } })}
            choices={[
              { value: "", label: "nothing" },
              ...others.map(({ name, label }) => ({ value: name, label })),
            ]}
          />
          {other ? (
            <QuantityField
              key={other.name}
              id="throw-otherValue"
              label={other.label}
              fieldName={other.label}
              dimension={other.dimension}
              quantity={form.otherValue}
              onChange={(next) => set({ otherValue: next })}
              error={errors.otherValue ?? null}
            />
          ) : null}
          <TextField
            id="throw-note"
            label="Note"
            optional
            maxLength={500}
            value={form.note}
            onChange={(event) => set({ note: event.target.value })}
          />
        </div>
      </details>
      <p className="button-row">
        <Button look="main" type="submit">
          {correcting ? "Write the correction" : "Write it down"}
        </Button>
        {correcting ? <Button onClick={onCancel}>Leave it as it was</Button> : null}
      </p>
      {Object.keys(errors).length > 0 ? (
        <p role="alert" className="aloud">
          Not written: {Object.values(errors).join(" ")}
        </p>
      ) : null}
    </form>
  );
}
