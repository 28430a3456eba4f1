"use client";
import { Button } from "@/app/_ui/button";
import { FieldError, SelectField } from "@/app/_ui/field";
/** What the stop is designed from. */
import { energyText, inWords } from "@/app/_ui/hazard-sheet/words";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { BOLT_CLASSES, BOLT_SIZES, type Breakage, STOP_KINDS, STOP_LIMITS } from "@/lib/throw";
import { sourcesOf, TYPED } from "./source";
import { type Asked, QUANTITIES, type QuantityName } from "./stop-asks";
import { asksFor, EMPTY, type StopErrors, type StopForm, sourceOf } from "./stop-form";
import { KIND_WORDS, LIMIT_WORDS, PLANE_WORDS } from "./stop-words";

const MOST_POINTS = 30;

interface Props {
  form: StopForm;
  found: Breakage | null;
  errors: StopErrors;
  onChange: (form: StopForm) => void;
}

export function StopFields(props: Props) {
  const { form, found, errors, onChange } = props;
  const system = useUnits();
  const asked = asksFor(form, found);
  const set = (change: Partial<StopForm>) => onChange({ ...form, ...change });
  const numbers = (...names: QuantityName[]) =>
    names
      .filter((name) => asked.includes(name))
      .map((name) => {
        const { label, dimension, help, optional }: Asked = QUANTITIES[name];
        return (
          <QuantityField
            key={name}
            id={`stop-${name}`}
            label={label}
            fieldName={label}
            help={inWords(help, "", form.system)}
            dimension={dimension}
            optional={optional}
            quantity={form.quantities[name]}
            error={errors[name] ?? null}
            onChange={(quantity) => set({ quantities: { ...form.quantities, [name]: quantity } })}
          />
        );
      });
  return (
    <div className="no-print">
      <section aria-labelledby="stop-arrives">
        <h2 id="stop-arrives">What arrives</h2>
        <div className="field-grid">
          <SelectField
            id="stop-source"
            label="Arriving energy from"
            help="The largest is taken until you choose another."
            value={sourceOf(form, found)?.value ?? TYPED}
            onChange={(event) => set({ source: event.target.value })}
            choices={[
              ...sourcesOf(found).map(({ value, label, energy }) => ({
                value,
                label: `${label}: ${energyText(energy, system)}`,
              })),
              { value: TYPED, label: "A number that I type" },
            ]}
          />
          {numbers("energy", "movingMass", "drive", "radius")}
        </div>
      </section>
      <section aria-labelledby="stop-stop">
        <h2 id="stop-stop">The stop</h2>
        <div className="field-grid">
          <SelectField
            id="stop-kind"
            label="Kind of stop"
            help={KIND_WORDS[form.kind].note}
            value={form.kind}
            onChange={(event) => set({ kind: event.target.value as StopForm["kind"] })}
            choices={STOP_KINDS.map((value) => ({ value, label: KIND_WORDS[value].label }))}
          />
          <SelectField
            id="stop-limit"
            label="What is given"
            help="The others follow from it."
            value={form.limit}
            onChange={(event) => set({ limit: event.target.value as StopForm["limit"] })}
            choices={STOP_LIMITS.map((value) => ({ value, label: LIMIT_WORDS[value] }))}
          />
          {numbers("stroke", "force", "deceleration", "efficiency")}
        </div>
        {form.kind === "curve" && <Curve {...props} />}
      </section>
      <section aria-labelledby="stop-bolted">
        <h2 id="stop-bolted">Bolts that hold it</h2>
        <div className="field-grid">
          <SelectField
            id="stop-size"
            label="Size"
            value={form.size}
            onChange={(event) => set({ size: event.target.value as StopForm["size"] })}
            choices={BOLT_SIZES.map((value) => ({ value, label: value }))}
          />
          <SelectField
            id="stop-class"
            label="Class"
            help="As stamped on the head; without a stamp the lowest."
            value={form.class}
            onChange={(event) => set({ class: event.target.value as StopForm["class"] })}
            choices={BOLT_CLASSES.map((value) => ({ value, label: value }))}
          />
          <SelectField
            id="stop-planes"
            label="Cuts through each bolt"
            value={form.planes}
            onChange={(event) => set({ planes: event.target.value as StopForm["planes"] })}
            choices={Object.entries(PLANE_WORDS).map(([value, label]) => ({ value, label }))}
          />
          {numbers("shearStrength", "designFactor")}
        </div>
      </section>
      <section aria-labelledby="stop-frame">
        <h2 id="stop-frame">Frame and drop test</h2>
        <div className="field-grid">
          {numbers("frameMass", "footprint", "friction", "height", "dropMass")}
        </div>
      </section>
    </div>
  );
}

/** Force against way, point by point. */
function Curve({ form, errors, onChange }: Props) {
  const put = (index: number, point: Partial<StopForm["curve"][number]>) =>
    onChange({ ...form, curve: form.curve.map((each, i) => (i === index ? { ...each, ...point } : each)) });
  return (
    <fieldset className="points" id="stop-curve" tabIndex={-1}>
      <legend>Measured force against way</legend>
      <p className="field-help">In the order of the way; straight lines are taken between the points.</p>
      <FieldError id="stop-curve" error={errors.curve ?? null} />
      {form.curve.map((point, index) => (
        <div className="points-row" key={`${form.curve.length}-${index}`}>
          {(["stroke", "force"] as const).map((name) => (
            <QuantityField
              key={name}
              id={`stop-curve-${index}-${name}`}
              label={`${name === "stroke" ? "Way" : "Force"}, point ${index + 1}`}
              fieldName={`${name === "stroke" ? "Way" : "Force"}, point ${index + 1}`}
              dimension={name === "stroke" ? "length" : "force"}
              quantity={point[name]}
              onChange={(quantity: Quantity) => put(index, { [name]: quantity })}
            />
          ))}
          <Button
            aria-label={`Remove point ${index + 1}`}
            aria-disabled={form.curve.length <= 2}
            onClick={() =>
              form.curve.length > 2 && onChange({ ...form, curve: form.curve.filter((_, i) => i !== index) })
            }
          >
            ✕
          </Button>
        </div>
      ))}
      {form.curve.length < MOST_POINTS && (
        <Button
          onClick={() => onChange({ ...form, curve: [...form.curve, { stroke: EMPTY, force: EMPTY }] })}
        >
          Add a point
        </Button>
      )}
    </fieldset>
  );
}
