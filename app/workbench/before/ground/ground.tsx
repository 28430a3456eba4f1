"use client";
import { gapText } from "@/app/_ui/inspection/texts";
/** How level the firing point is, what a lean does to the throw, and what to lay under which foot. */
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { angleOfShare, FEET, type Foot, type Levelled, levelFeet, levelSlopes } from "@/lib/inspection";
import styles from "../before.module.css";
import type { Asks } from "../numbers/asks";
import { ChoiceSelect } from "../numbers/choice-select";
import { Needs, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { type Numbers, useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";
import { LeanEffect } from "./lean-effect";

type Name = "length" | "width" | Foot | "along" | "across" | "alongShare" | "acrossShare";
const MODES = ["feet", "angle", "percent"] as const;

const FOOT_WORDS: Record<Foot, string> = {
  frontLeft: "Front left foot",
  frontRight: "Front right foot",
  rearLeft: "Rear left foot",
  rearRight: "Rear right foot",
};
const reading = (foot: Foot) => ({
  label: FOOT_WORDS[foot],
  dimension: "length" as const,
  help: "The staff's reading: the larger, the lower.",
});
const signs = { along: "Downrange lower is positive.", across: "Right lower is positive." };

const ASKS: Asks<Name> = {
  length: {
    label: "Rear to front feet",
    dimension: "length",
    help: "Front is downrange.",
    range: "positive",
    needed: true,
  },
  width: {
    label: "Left to right feet",
    dimension: "length",
    help: "Seen by somebody who looks downrange.",
    range: "positive",
    needed: true,
  },
  frontLeft: reading("frontLeft"),
  frontRight: reading("frontRight"),
  rearLeft: reading("rearLeft"),
  rearRight: reading("rearRight"),
  along: { label: "Angle along the throw", dimension: "angle", help: signs.along, range: "lean" },
  across: { label: "Angle across", dimension: "angle", help: signs.across, range: "lean" },
  alongShare: {
    label: "Fall along the throw",
    dimension: "ratio",
    help: `Such as 2 %. ${signs.along}`,
    range: "fall",
  },
  acrossShare: {
    label: "Fall across",
    dimension: "ratio",
    help: `Such as 2 %. ${signs.across}`,
    range: "fall",
  },
};
const OPTIONS = { mode: MODES };
const MODE_WORDS = {
  feet: "Readings at its feet",
  angle: "Angles",
  percent: "Falls in percent",
};
const NAMES: Record<(typeof MODES)[number], readonly Name[]> = {
  feet: ["length", "width", ...FEET],
  angle: ["length", "width", "along", "across"],
  percent: ["length", "width", "alongShare", "acrossShare"],
};

/** Null until enough is read. */
function levelled({ value, form }: Numbers<Name, "mode">): Levelled | null {
  const [length, width] = [value("length"), value("width")];
  if (length === undefined || width === undefined) return null;
  const base = { length, width };
  if (form.choices.mode === "feet") {
    const depths = Object.fromEntries(
      FEET.flatMap((foot) => (value(foot) === undefined ? [] : [[foot, value(foot)]])),
    );
    return levelFeet(depths, base);
  }
  const share = (name: Name) => {
    const found = value(name);
    return found === undefined ? undefined : angleOfShare(found);
  };
  const percent = form.choices.mode === "percent";
  const along = percent ? share("alongShare") : value("along");
  const across = percent ? share("acrossShare") : value("across");
  if (along === undefined || across === undefined) return null;
  return levelSlopes({ along, across }, base);
}

export function Ground({ request, title }: SectionProps) {
  const system = useUnits();
  const numbers = useNumbers<Name, "mode">("fairthrow-before-ground", ASKS, OPTIONS);
  const mode = MODES.find((each) => each === numbers.form.choices.mode) ?? "feet";
  const names = NAMES[mode];
  const found = levelled(numbers);
  const lacking = numbers.missing(...names);
  return (
    <>
      <p className={styles.of}>{title}</p>
      <div className="field-grid no-print">
        <ChoiceSelect
          id="ground"
          name="mode"
          label="How it is measured"
          help="A staff or a rule from a level line down to three or four feet; or a level laid along and across."
          numbers={numbers}
          values={MODES}
          words={MODE_WORDS}
        />
        <NumberFields id="ground" numbers={numbers} names={names} />
      </div>
      <Given numbers={numbers} names={names} chosen={[MODE_WORDS[mode]]} />
      <Told wrong={numbers.wrong(names)}>
        {found ? (
          <>
            <LeanEffect request={request} lean={found} />
            <section aria-labelledby="packing-title">
              <h3 id="packing-title">To level it</h3>
              <div className={styles.narrow}>
                <Table
                  caption="What to lay under each foot"
                  hideCaption
                  rows={FEET}
                  rowKey={(foot) => foot}
                  columns={[
                    { key: "foot", head: "Foot", rowHead: true, cell: (foot) => FOOT_WORDS[foot] },
                    {
                      key: "packing",
                      head: "Lay under",
                      number: true,
                      cell: (foot) =>
                        found.packing[foot] < 5e-4 ? "nothing" : gapText(found.packing[foot], system),
                    },
                  ]}
                />
              </div>
              {found.taken && (
                <p>{FOOT_WORDS[found.taken]}: not read; taken in one plane with the other three.</p>
              )}
              {mode === "feet" && !found.taken && (
                <p>
                  The feet are {gapText(2 * found.twist, system)} off one plane: by so much the last one hangs
                  in the air or the frame twists.
                </p>
              )}
            </section>
          </>
        ) : (
          <Needs what={mode === "feet" ? "The lean (three feet are enough)" : "The lean"} labels={lacking} />
        )}
      </Told>
      <p className={styles.small}>
        Packing is wide hardwood or steel on firm ground, not soil; feet sink with the first throws, so read
        it again after them. The safety officer decides whether a firing point is level enough.
      </p>
      <PrintSection />
    </>
  );
}
