"use client";
import { useState } from "react";
import { SelectField, TextField } from "@/app/_ui/field";
import { QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { numberOrNothing, textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { MarkingInfo } from "@/lib/api/contracts";
import { LANDING_WORDS, UNIT_WORDS } from "./words";

const choicesOf = (words: Record<string, string>) =>
  Object.entries(words).map(([value, label]) => ({ value, label }));

export function MarkRuleForm({
  slug,
  marking: { rule, protestMinutes, entries },
  pegs,
}: {
  slug: string;
  marking: MarkingInfo;
  pegs: readonly { id: string; name: string }[];
}) {
  const system = useUnits();
  const [from, setFrom] = useState<string>(rule.from);
  const [sector, setSector] = useState(rule.sector !== null);
  const [radius, setRadius] = useState(
    quantityOf(rule.from === "arc" ? rule.radius : null, "distance", system),
  );
  const number = (form: FormData, name: string) => numberOrNothing(form, name)[name];
  return (
    <WriteForm<MarkingInfo>
      label="Set the mark rule"
      method="PUT"
      url={`/api/v1/contests/${slug}/mark-rule`}
      fields={[
        "rule.from",
        "rule.centre",
        "rule.radius",
        "rule.landing",
        "rule.unit",
        "rule.sector.bearing",
        "rule.sector.halfAngle",
        "protestMinutes",
        "reason",
      ]}
      body={(form) => ({
        rule: {
          from,
          ...(from === "arc" && {
            centre: textOf(form, "centre"),
            radius: radius.value ?? radius.text,
          }),
          landing: textOf(form, "landing"),
          unit: textOf(form, "unit"),
          sector: sector ? { bearing: number(form, "bearing"), halfAngle: number(form, "halfAngle") } : null,
        },
        protestMinutes: number(form, "protestMinutes"),
        ...(textOf(form, "reason") !== "" && { reason: textOf(form, "reason") }),
      })}
      submit="Set the mark rule"
      done={() => <p>The mark rule is set.</p>}
    >
      {(errorFor) => (
        <>
          <SelectField
            id="mark-from"
            name="from"
            label="Marks count from"
            value={from}
            onChange={(event) => setFrom(event.target.value)}
            error={errorFor("rule.from")}
            choices={[
              { value: "firing-point", label: "the firing point of the machine" },
              { value: "arc", label: "a measuring arc about a control point" },
            ]}
          />
          {from === "arc" && (
            <>
              <SelectField
                id="mark-centre"
                name="centre"
                label="Centre of the arc"
                defaultValue={rule.from === "arc" ? rule.centre : undefined}
                error={errorFor("rule.centre")}
                choices={pegs.map(({ id, name }) => ({ value: id, label: name }))}
              />
              <QuantityField
                id="mark-radius"
                name="radius"
                label="Radius of the arc"
                fieldName="Radius of the arc"
                dimension="distance"
                quantity={radius}
                onChange={setRadius}
                error={errorFor("rule.radius")}
              />
            </>
          )}
          <SelectField
            id="mark-landing"
            name="landing"
            label="Marks count to"
            defaultValue={rule.landing}
            error={errorFor("rule.landing")}
            choices={choicesOf(LANDING_WORDS)}
          />
          <SelectField
            id="mark-unit"
            name="unit"
            label="Rounded down to"
            defaultValue={rule.unit}
            error={errorFor("rule.unit")}
            choices={choicesOf(UNIT_WORDS)}
          />
          <SelectField
            id="mark-sector"
            name="sector"
            label="Landing sector"
            help="What lands outside keeps its mark and is said to be outside: a person rules."
            value={sector ? "yes" : "no"}
            onChange={(event) => setSector(event.target.value === "yes")}
            choices={[
              { value: "no", label: "none" },
              { value: "yes", label: "between two side lines" },
            ]}
          />
          {sector && (
            <>
              <TextField
                id="mark-bearing"
                name="bearing"
                label="Bearing of the middle line"
                help="Degrees true, from the firing point or from the arc’s centre."
                inputMode="decimal"
                required
                defaultValue={rule.sector?.bearing ?? ""}
                error={errorFor("rule.sector.bearing")}
              />
              <TextField
                id="mark-half-angle"
                name="halfAngle"
                label="From the middle line to either side line"
                help="Degrees."
                inputMode="decimal"
                required
                defaultValue={rule.sector?.halfAngle ?? ""}
                error={errorFor("rule.sector.halfAngle")}
              />
            </>
          )}
          <TextField
            id="mark-protests"
            name="protestMinutes"
            label="Protests, minutes after the results of a round"
            inputMode="numeric"
            required
            defaultValue={protestMinutes}
            error={errorFor("protestMinutes")}
          />
          <TextField
            id="mark-reason"
            name="reason"
            label="Reason for the change"
            help={
              entries > 0
                ? "Marks are entered already and will be made anew. Stands in the scorebook; no person’s name."
                : "Only needed once marks are entered."
            }
            optional={entries === 0}
            required={entries > 0}
            error={errorFor("reason")}
          />
        </>
      )}
    </WriteForm>
  );
}
