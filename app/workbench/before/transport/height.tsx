"use client";
/** How high, wide and long the load rides, against what hangs over the road. */
import { besideLimit, exceeds } from "@/app/_ui/beside-limit";
import { Caution } from "@/app/_ui/caution";
import { lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { atLeastSize, atMostSize, sizeText } from "@/app/_ui/inspection/texts";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Pose, poseOf } from "@/lib/inspection";
import styles from "../before.module.css";
import type { Asks } from "../numbers/asks";
import { ChoiceSelect } from "../numbers/choice-select";
import { type Fact, Facts, Needs, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { type Numbers, useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";

type Name =
  | "body"
  | "above"
  | "bed"
  | "bridge"
  | "bridgeGap"
  | "line"
  | "lineGap"
  | "length"
  | "lengthLimit"
  | "width"
  | "widthLimit";

const size = (label: string, help: string, more: { start?: number; needed?: boolean } = {}) => ({
  label,
  dimension: "length" as const,
  help,
  range: "not-negative" as const,
  ...more,
});

const ASKS: Asks<Name> = {
  body: size(
    "Height of the machine as it rides",
    "From what it stands on to its highest point, as measured.",
  ),
  above: size(
    "Frame above arm and pivot",
    "What stands higher than arm, pivot and counterweight do; nothing if left empty.",
  ),
  bed: size("Height of the bed", "Of the trailer's floor above the road, loaded, tyres pumped.", {
    needed: true,
  }),
  bridge: size("Lowest bridge or branch", "On the whole road, gates and the field's way in too."),
  bridgeGap: size(
    "Clearance to bridge or branch",
    "For bounce and a road made higher. Common practice, no source.",
    {
      start: 0.2,
    },
  ),
  line: size("Lowest electrical or telephone line", "As its owner states it: never measure it with a pole."),
  lineGap: size("Clearance that the line's owner asks for", "By its voltage and the country's rule."),
  length: size(
    "Length of the load",
    "Arm and what sticks out; of arm and counterweight as they ride if left empty, where the numbers tell it.",
  ),
  lengthLimit: size("Longest load allowed", "By your country's rule, flag and light where it asks for them."),
  width: size("Width of the load", "At its widest, wheels and axle ends too."),
  widthLimit: size("Widest load allowed", "By your country's rule."),
};
const NAMES = Object.keys(ASKS) as Name[];
const OPTIONS = { pose: ["cocked", "level", "typed"] } as const;

const POSE_WORDS: Record<Pose | "typed", string> = {
  cocked: "Arm as cocked",
  level: "Arm level",
  typed: "As I measure it",
};

export function Height({ request: { machine }, title }: SectionProps) {
  const system = useUnits();
  const numbers = useNumbers<Name, "pose">("fairthrow-before-height", ASKS, OPTIONS);
  const known = poseOf(machine, "level") !== null;
  const pose = known ? (numbers.form.choices.pose as Pose | "typed") : "typed";
  const own = pose === "typed" ? null : poseOf(machine, pose);
  const body = own?.height ?? numbers.value("body");
  // What was measured to its highest point has nothing above it.
  const left = own === null ? "above" : "body";
  const names = NAMES.filter((name) => name !== left);
  return (
    <>
      <p className={styles.of}>{title}</p>
      <div className="no-print">
        <div className="field-grid">
          {known && (
            <ChoiceSelect
              id="height"
              name="pose"
              label="How it rides"
              help="From its own numbers, which hold no frame: look what stands higher."
              numbers={numbers}
              values={OPTIONS.pose}
              words={POSE_WORDS}
            />
          )}
          <NumberFields id="height" numbers={numbers} names={names} />
        </div>
      </div>
      <Given numbers={numbers} names={names} chosen={[`Rides: ${lowerFirst(POSE_WORDS[pose])}`]} />
      <Told wrong={numbers.wrong(names)}>
        <Facts facts={factsOf(numbers, body, own, system)} />
        <Needs
          what="The height on the road"
          labels={[...(body === undefined ? numbers.missing("body") : []), ...numbers.missing("bed")]}
        />
        <Needs
          what="The gap to a line"
          labels={
            numbers.value("line") === undefined && numbers.value("bridge") !== undefined
              ? []
              : numbers.missing("line", "lineGap")
          }
        />
      </Told>
      <Caution title="lines kill without a touch">
        <p>
          How near one may come differs by voltage and country: ask the line&rsquo;s owner, for the road and
          for raising the machine. Measure the height again when all is tied down. Bridges, ferries and the
          police have rules of their own: they decide.
        </p>
      </Caution>
      <p className={styles.small}>
        Assumed: level road, no bounce beyond the clearance, nothing that works loose and stands up.
      </p>
      <PrintSection />
    </>
  );
}

function factsOf(
  numbers: Numbers<Name, "pose">,
  body: number | undefined,
  own: { length: number } | null,
  system: UnitSystem,
): Fact[] {
  const facts: Fact[] = [];
  const { value } = numbers;
  const bed = value("bed");
  if (body !== undefined && bed !== undefined) {
    const height = bed + body + (own ? (value("above") ?? 0) : 0);
    facts.push({ label: "Height above the road", text: atMostSize(height, system) });
    for (const [over, gap, label] of [
      ["bridge", "bridgeGap", "Under the lowest bridge or branch"],
      ["line", "lineGap", "Under the lowest line"],
    ] as const) {
      const lowest = value(over);
      if (lowest === undefined) continue;
      facts.push(gapFact(label, lowest - height, value(gap), system));
    }
  }
  for (const [what, limit, label, given] of [
    ["length", "lengthLimit", "Length", value("length") ?? own?.length],
    ["width", "widthLimit", "Width", value("width")],
  ] as const) {
    if (given === undefined) continue;
    const most = value(limit);
    const from = value(what) === undefined ? " of arm and counterweight" : "";
    if (most === undefined) {
      facts.push({ label, text: `${atMostSize(given, system)}${from}` });
      continue;
    }
    const short = exceeds(given, most);
    const told = besideLimit(given, most, sized(system, short));
    const { limit: allowed, off } = told;
    const size = short ? told.value : atMostSize(given, system);
    facts.push({
      label,
      text: `${size}${from}, allowed ${allowed}${short ? `: ${off} too much` : ""}`,
      short,
    });
  }
  return facts;
}

/** More digits only where a limit is not kept. */
const sized = (system: UnitSystem, short: boolean) => (metres: number, more: number) =>
  sizeText(metres, system, short ? more : 0);

function gapFact(label: string, left: number, asked: number | undefined, system: UnitSystem): Fact {
  if (left <= 0)
    return { label, text: `Strikes: ${besideLimit(left, 0, sized(system, true)).off} too high`, short: true };
  if (asked === undefined)
    return {
      label,
      text: `${atLeastSize(left, system)} are left; what is asked for is not known`,
      short: true,
    };
  const short = exceeds(asked, left);
  const { value, limit, off } = besideLimit(left, asked, sized(system, short));
  const gap = short ? value : atLeastSize(left, system);
  return {
    label,
    text: `${gap} are left, ${limit} asked for${short ? `: short by ${off}` : ""}`,
    short,
  };
}
