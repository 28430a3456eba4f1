"use client";
/** The counterweight's drum: does it fit, how full for the wanted mass, what full. */
import { Caution } from "@/app/_ui/caution";
import { shareText } from "@/app/_ui/inspection/texts";
import { useUnits } from "@/app/_ui/units";
import { bulkDensity, FILL, type FillName } from "@/lib/inspection";
import { formatQuantity } from "@/lib/units";
import styles from "../before.module.css";
import { ChoiceSelect } from "../numbers/choice-select";
import { type Fact, Facts, Needs, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";
import { type Choice, FILL_ASKS, FILL_OPTIONS, NAMES, type Name } from "./asks";
import { chargeFacts, cradleFacts, weightFrom } from "./facts";
import { WriteBack } from "./write-back";

const FILL_WORDS: Record<FillName, string> = {
  water: "Water",
  "dry-sand": "Sand, dry",
  "wet-sand": "Sand, soaked",
  gravel: "Gravel or broken stone",
  "stone-and-sand": "Stone packed with sand in its gaps",
  own: "Another, by its density",
};

export function Fill({ request, title }: SectionProps) {
  const system = useUnits();
  const numbers = useNumbers<Name, Choice>("fairthrow-before-fill", FILL_ASKS, FILL_OPTIONS);
  const { choices } = numbers.form;
  const { machine } = request;
  const declared = "counterweightMass" in machine ? machine.counterweightMass : undefined;
  const own = choices.fill === "own";
  const fill = own ? null : FILL[choices.fill as Exclude<FillName, "own">];
  const density = numbers.value("density") ?? fill?.density;
  // A liquid has no gaps, whatever was typed of another filling before.
  const gaps = fill?.voids !== 0;
  const voids = gaps ? (numbers.value("voids") ?? fill?.voids ?? 0) : 0;
  const bulk =
    density === undefined ? undefined : bulkDensity({ density, voids, soaked: fill?.soaked ?? false });
  const wanted = numbers.value("wanted") ?? declared;
  const weight = weightFrom(numbers, bulk);
  const charge = weight && wanted !== undefined ? chargeFacts(weight, wanted, system) : null;
  const names = NAMES.filter((name) => gaps || name !== "voids");
  const select = (name: Choice, label: string, help: string, words: Record<string, string>) => (
    <ChoiceSelect id="fill" numbers={numbers} values={FILL_OPTIONS[name]} {...{ name, label, help, words }} />
  );
  const about: Fact[] =
    bulk === undefined
      ? []
      : [
          {
            label: "A full volume of it weighs",
            text: `${formatQuantity(bulk, "density", system)}${voids > 0 ? `, ${shareText(voids)} of it gaps between grains of ${formatQuantity(density as number, "density", system)}` : ""}; ${fill?.source ?? "as typed"}`,
          },
        ];
  return (
    <>
      <p className={styles.of}>{title}</p>
      <div className="field-grid no-print">
        {select("fill", "Filled with", "Loose fills differ by a tenth: weigh a bucket of it.", FILL_WORDS)}
        {select("stands", "The drum", "As it hangs or lies at rest.", {
          upright: "Stands upright",
          lying: "Lies on its side",
        })}
        {select("count", "How many, alike", "Filled alike.", {})}
        <NumberFields id="fill" numbers={numbers} names={names} />
      </div>
      <Given
        numbers={numbers}
        names={names}
        chosen={[
          `${choices.count} × drum, ${choices.stands}`,
          `Filled with: ${FILL_WORDS[choices.fill as FillName].toLowerCase()}`,
        ]}
      />
      <Told wrong={numbers.wrong(names)}>
        <section aria-labelledby="fill-mass">
          <h3 id="fill-mass">How full</h3>
          <Facts facts={[...about, ...(charge?.facts ?? [])]} />
          <Needs
            what="The filling"
            labels={[
              ...numbers.missing("diameter", "length"),
              ...(bulk === undefined ? numbers.missing("density") : []),
            ]}
          />
          {charge && declared !== undefined && <WriteBack declared={declared} masses={charge.masses} />}
        </section>
        <section aria-labelledby="fill-cradle">
          <h3 id="fill-cradle">In its cradle</h3>
          <Facts facts={cradleFacts(numbers, system)} />
          <Needs
            what="Whether it fits"
            labels={numbers.missing("outerDiameter", "outerLength", "cradleWidth", "cradleLength")}
          />
        </section>
      </Told>
      <Caution title="sloshing and shifting are not modelled">
        <p>
          {fill?.flows === false
            ? "What can settle or shift while it swings moves the centre of mass and jerks the hanger: fill to the lid or pack it tight, and shut the lid so that nothing flies out."
            : "What flows runs to one side while it swings, jerks the hanger and drags the frame: fill to the brim or divide the drum, and shut the lid so that nothing flies out."}{" "}
          A scale under the filled counterweight decides; the inspector looks at drum and cradle.
        </p>
      </Caution>
      <PrintSection />
    </>
  );
}
