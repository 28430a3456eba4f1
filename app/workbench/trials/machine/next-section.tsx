"use client";
/** The setting to try next, within what is asked. */
import { useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { CheckField, SelectField } from "@/app/_ui/field";
import { distanceText, lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { type Quantity, QuantityField, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import { type HazardRequest, type MeasuredThrow, type trials, tuning } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "../trials.module.css";
import { useNext } from "./use-machine";

export function NextSection({
  request,
  throws,
  machine,
  setting,
  system,
}: {
  /** In the air and at the settings of the last throw. */
  request: HazardRequest;
  throws: readonly MeasuredThrow[];
  machine: trials.CalibratedMachine;
  setting: tuning.Knob;
  system: UnitSystem;
}) {
  const knobs = tuning.knobsOf(request).filter(({ tunes }) => tunes);
  const [chosen, setChosen] = useState(setting.name);
  const knob = knobs.find(({ name }) => name === chosen) ?? (knobs[0] as tuning.Knob);
  const [kind, setKind] = useState<"farthest" | "mark">("farthest");
  const [mark, setMark] = useState<Quantity>({ text: "", value: null });
  const [ends, setEnds] = useState<Record<string, { low?: Quantity; high?: Quantity }>>({});
  const [withOffset, setWithOffset] = useState(false);
  const { offset } = machine;
  const mayTurn = offset?.told === true && offset.matters && knob.name === setting.name;
  const { label, dimension } = knob;
  const low = ends[knob.name]?.low ?? quantityOf(knob.low, dimension, system);
  const high = ends[knob.name]?.high ?? quantityOf(knob.high, dimension, system);
  const problems = [
    quantityProblem("From", low, dimension, system),
    quantityProblem("To", high, dimension, system),
    kind === "mark" ? quantityProblem("Mark at", mark, "distance", system) : null,
    low.value !== null && high.value !== null && low.value >= high.value ? "From must be below To." : null,
    low.value !== null && high.value !== null && !bothTaken(request, knob.name, low.value, high.value)
      ? `The machine takes no such ${lowerFirst(label)}: bring From and To nearer together.`
      : null,
    kind === "mark" && mark.value !== null && !(mark.value > 0) ? "Mark at: enter more than 0." : null,
  ].filter((problem) => problem !== null);
  const asked: trials.NextAsked | null =
    problems.length === 0
      ? {
          request,
          throws,
          machine: { calibration: machine.calibration, thrown: machine.thrown, offset },
          vary: { name: knob.name, low: low.value as number, high: high.value as number },
          goal: kind === "mark" ? { kind, distance: mark.value as number } : { kind },
          withOffset: withOffset && mayTurn,
        }
      : null;
  const { answer, question, failure, stale } = useNext(asked);
  const end = (name: "low" | "high", quantity: Quantity, words: string) => (
    <QuantityField
      id={`next-${name}`}
      label={words}
      fieldName={words}
      dimension={dimension}
      quantity={quantity}
      onChange={(next) =>
        setEnds((before) => ({ ...before, [knob.name]: { ...before[knob.name], [name]: next } }))
      }
    />
  );
  return (
    <>
      <ChoiceTiles
        id="next-goal"
        legend="What for"
        choices={[
          { value: "farthest", label: "The farthest throw" },
          { value: "mark", label: "A mark" },
        ]}
        value={kind}
        onChange={setKind}
      />
      <div className={styles.fields}>
        {kind === "mark" ? (
          <QuantityField
            id="next-mark"
            label="Mark at"
            fieldName="Mark at"
            dimension="distance"
            quantity={mark}
            onChange={setMark}
          />
        ) : null}
        <SelectField
          id="next-knob"
          label="What is turned"
          value={knob.name}
          onChange={(event) => setChosen(event.target.value)}
          choices={knobs.map(({ name, label }) => ({ value: name, label }))}
        />
        {end("low", low, "From")}
        {end("high", high, "To")}
      </div>
      {mayTurn ? (
        <CheckField
          id="next-offset"
          label="Take the scale's offset into account"
          checked={withOffset}
          onChange={(event) => setWithOffset(event.target.checked)}
        />
      ) : null}
      {problems.length > 0 ? (
        <Notice title="Not looked for yet">
          {problems.map((problem) => (
            <p key={problem}>{problem}</p>
          ))}
        </Notice>
      ) : null}
      {failure ? (
        <Notice kind="problem" title="Not computed">
          <p>{failure}</p>
        </Notice>
      ) : null}
      <div role="status" aria-busy={stale} className={stale ? styles.stale : undefined}>
        {answer && question && asked ? (
          <NextWords answer={answer} asked={question} knob={knob} machine={machine} system={system} />
        ) : null}
      </div>
      <Caution kind="mandatory" title="before the next throw">
        <p>
          The keep-out zone follows from the numbers: when any is changed, work it out anew before anybody
          throws, and let somebody else check it. Nobody goes near the machine to set it until it has been
          made safe.
        </p>
      </Caution>
    </>
  );
}

function NextWords({
  answer,
  asked,
  knob,
  machine,
  system,
}: {
  answer: trials.NextSetting;
  asked: trials.NextAsked;
  knob: tuning.Knob;
  machine: trials.CalibratedMachine;
  system: UnitSystem;
}) {
  const { label, dimension } = knob;
  const metres = (value: number) => distanceText(value, system);
  const of = (value: number, uncertainty?: number | null) =>
    formatQuantity(value, dimension, system, uncertainty ? { uncertainty } : undefined);
  if (!answer.found) {
    const [least, most] = answer.reach ?? [0, 0];
    const words = {
      "not-calibrated": "No throw says yet what this machine does: write one down first.",
      "nothing-thrown": "Nowhere in this range does the machine throw.",
      "out-of-reach": `No setting in this range lands there: it reaches from ${metres(least)} to ${metres(most)}.`,
      "jumped-over": "Within this range the throw jumps over that distance: another number must be turned.",
    };
    return <p className={styles.told}>{words[answer.why]}</p>;
  }
  const { value, distance, between, uncertainty, flat, extrapolates, others } = answer;
  const thrown = machine.thrown[knob.name];
  return (
    <>
      <p className={styles.told} data-told="next">
        Set the {lowerFirst(label)} to {of(value, uncertainty)}
        {uncertainty ? ` ± ${of(uncertainty, uncertainty)}` : ""}: it lands at {metres(distance)}
        {asked.goal.kind === "farthest" ? ", the farthest in this range" : ""}.
      </p>
      <p>
        {between
          ? `95 of 100 throws between ${metres(Math.max(0, between[0]))} and ${metres(between[1])}, in the wind and with the projectile of the last throw.`
          : "How far a throw may miss is not known before two were made."}
        {flat && flat[0] < flat[1]
          ? ` From ${of(flat[0])} to ${of(flat[1])} it throws nearly as far: there the setting matters little.`
          : ""}
        {others.length > 0 ? ` ${others.map((each) => of(each)).join(" and ")} would land there too.` : ""}
      </p>
      {extrapolates ? (
        <Notice title="Beyond what was thrown">
          <p>
            {thrown
              ? `Thrown was from ${of(thrown[0])} to ${of(thrown[1])}.`
              : `No throw was made at another ${lowerFirst(label)}.`}{" "}
            Nothing measured says that the machine keeps its efficiency there: go in small steps.
          </p>
        </Notice>
      ) : null}
    </>
  );
}

const bothTaken = (request: HazardRequest, name: string, low: number, high: number) =>
  [low, high].every((value) => tuning.isInRange(tuning.withValues(request, { [name]: value })));
