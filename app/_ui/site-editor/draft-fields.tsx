"use client";
import { formatQuantity } from "@/lib/units";
import { FEATURE_RULES, featureKind } from "@/lib/zones/kinds";
/** What is entered beside the drawing: name, rule, stand-off, height, accuracy. */
import { SelectField, TextField } from "../field";
import { type Quantity, QuantityField } from "../quantity-field";
import { useUnits } from "../units";
import { type Draft, type Fields, isPointItem } from "./draft";
import { RULE_WORDS } from "./rules";

/** Kinds that have one rule, whatever is wished. */
const UNCHANGEABLE: readonly string[] = ["boundary", "overhead-line"];

/** Whose site it is: a contest, or a team's own practice yard, where nobody can allow less protection. */
export type SiteOf = "contest" | "yard";

interface Props {
  draft: Draft;
  of: SiteOf;
  onChange: (changed: Partial<Fields>) => void;
  errorFor: (field: string) => string | null;
}

export function DraftFields(props: Props) {
  return isPointItem(props.draft.item) ? <PointFields {...props} /> : <FeatureFields {...props} />;
}

function FeatureFields({ draft, of, onChange, errorFor }: Props) {
  const system = useUnits();
  const kind = featureKind(draft.item);
  const choices = FEATURE_RULES.filter((rule) => rule !== "contains");
  const allowed =
    of === "contest"
      ? "counts once the safety officer has allowed it"
      : "does not count here: only a safety officer may allow it";
  return (
    <>
      <TextField
        id="feature-name"
        label="Name"
        value={draft.fields.name}
        onChange={(event) => onChange({ name: event.target.value })}
        required
        error={errorFor("name")}
      />
      {UNCHANGEABLE.includes(kind.kind) ? (
        <p>{kind.ruleText}</p>
      ) : (
        <SelectField
          id="feature-rule"
          label="Rule"
          help={`${kind.ruleText} A rule that protects less ${allowed}.`}
          value={draft.fields.rule}
          onChange={(event) => onChange({ rule: event.target.value })}
          error={errorFor("rule")}
          choices={[
            { value: "", label: `By its kind: ${RULE_WORDS[kind.rule]}` },
            ...choices.map((rule) => ({ value: rule, label: RULE_WORDS[rule] })),
          ]}
        />
      )}
      <QuantityField
        id="feature-stand-off"
        label="Stand-off"
        fieldName="Stand-off"
        dimension="distance"
        quantity={draft.fields.standOff}
        onChange={(standOff: Quantity) => onChange({ standOff })}
        optional
        help={`How far every zone must stay away; ${formatQuantity(kind.standOff, "distance", system)} for this kind if left empty. ${kind.standOffReason} Common practice, no source: a shorter one ${allowed}.`}
        error={errorFor("standOff")}
      />
    </>
  );
}

function PointFields({ draft, of, onChange, errorFor }: Props) {
  const { item, id, fields } = draft;
  const isFiringPoint = item === "firing-point";
  return (
    <>
      {isFiringPoint && (
        <TextField
          id="point-number"
          label="Number"
          help={id ? "Stays as it is." : "The next free one if left empty."}
          optional={!id}
          disabled={!!id}
          inputMode="numeric"
          value={fields.number}
          onChange={(event) => onChange({ number: event.target.value })}
          error={errorFor("number")}
        />
      )}
      {item !== "spot-height" && (
        <TextField
          id="point-name"
          label="Name"
          help={isFiringPoint ? undefined : "What stands on the peg; no other control point may have it."}
          optional={isFiringPoint}
          value={fields.name}
          onChange={(event) => onChange({ name: event.target.value })}
          error={errorFor("name")}
        />
      )}
      {isFiringPoint && of === "yard" && (
        <QuantityField
          id="point-bearing"
          label="Bearing"
          fieldName="Bearing"
          dimension="angle"
          quantity={fields.bearing}
          onChange={(bearing) => onChange({ bearing })}
          help="Which way the machine throws, degrees true, clockwise from north."
          error={errorFor("bearing")}
        />
      )}
      <QuantityField
        id="point-height"
        label="Height of the ground above the ellipsoid"
        fieldName="Height"
        dimension="distance"
        quantity={fields.height}
        onChange={(height) => onChange({ height })}
        optional={item !== "spot-height"}
        help={
          item === "spot-height"
            ? `As a receiver gives it, or ${of === "contest" ? "the contest’s" : "one point’s"} height with a levelled difference: all of one site by the same way.`
            : `The ${of}’s if left empty, and then it describes no ground.`
        }
        error={errorFor("height")}
      />
      {item !== "spot-height" && (
        <QuantityField
          id="point-accuracy"
          label="Accuracy"
          fieldName="Accuracy"
          dimension="distance"
          quantity={fields.accuracy}
          onChange={(accuracy) => onChange({ accuracy })}
          optional={!isFiringPoint}
          help={
            isFiringPoint
              ? "How far a machine on it may stand from these coordinates: every zone from here grows by this. A handheld receiver is good to some 5 m, a tap on the map to the width of a finger (common practice, no source); 0 only where a peg was surveyed and machines stand on it."
              : "Standard uncertainty of its place. 5 m, a handheld receiver’s, if left empty (common practice, no source)."
          }
          error={errorFor("accuracy")}
        />
      )}
      {item === "control-point" && (
        <TextField
          id="point-note"
          label="Note"
          help="How to find it again."
          optional
          value={fields.note}
          onChange={(event) => onChange({ note: event.target.value })}
          error={errorFor("note")}
        />
      )}
    </>
  );
}
