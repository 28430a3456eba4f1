"use client";
/** What runs past what, with how much between: from the machine's geometry where that tells it, else as measured. */
import { besideLimit, exceeds } from "@/app/_ui/beside-limit";
import { atLeastSize, gapText, sizeText } from "@/app/_ui/inspection/texts";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { groundGaps, RIM_CLEARANCE, sway } from "@/lib/inspection";
import type { Machine, Preview } from "@/lib/throw";
import styles from "../before.module.css";
import type { Asks } from "../numbers/asks";
import { type Fact, Facts, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { type Numbers, useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";

type Name = "rim" | "rimWanted" | "hanger" | "hangerWanted" | "lean" | "tip" | "tipWanted";

const gap = (label: string, help: string, start?: number) => ({
  label,
  dimension: "length" as const,
  help,
  range: "not-negative" as const,
  ...(start === undefined ? {} : { start }),
});

const ASKS: Asks<Name> = {
  rim: gap(
    "Wheel rim to track",
    "The least on either side, along the whole track, as measured: 13 mm or 1/2 in.",
  ),
  rimWanted: gap("Rim clearance wanted", "About 13 mm. Common practice, no source.", RIM_CLEARANCE),
  hanger: gap(
    "Counterweight or hanger to frame",
    "The least to a side, turned slowly through its whole way.",
  ),
  hangerWanted: gap(
    "Hanger clearance wanted, leaning",
    "What may be left when the machine leans. Common practice, no source.",
    0.05,
  ),
  lean: {
    label: "Lean to a side",
    dimension: "angle",
    help: "As measured under Level ground; as declared if left empty.",
  },
  tip: gap("Arm's tip to frame, trough or ground", "The least anywhere on its way, as measured."),
  tipWanted: gap("Tip clearance wanted", "Arms bend while they throw. Common practice, no source.", 0.1),
};
const OPTIONS = {};

const namesFor = (machine: Machine): Name[] => [
  ...(machine.kind === "floating-arm" || ("base" in machine && machine.base !== "fixed")
    ? (["rim", "rimWanted"] as const)
    : []),
  ...("counterweightMass" in machine ? (["hanger", "hangerWanted"] as const) : []),
  ...(machine.kind === "hinged-counterweight" ? (["lean"] as const) : []),
  "tip",
  "tipWanted",
];

export function Clearances({ request, title }: SectionProps) {
  const system = useUnits();
  const { machine } = request;
  const numbers = useNumbers<Name, never>("fairthrow-before-clearances", ASKS, OPTIONS);
  const { preview, stale } = usePreview(request);
  const names = namesFor(machine);
  const known = groundGaps(machine) !== null;
  return (
    <>
      <p className={styles.of}>{title}</p>
      {known && (
        <section aria-labelledby="gaps-own" aria-busy={stale}>
          <h3 id="gaps-own">By the machine&rsquo;s own numbers</h3>
          <Facts facts={ownFacts(machine, stale ? null : preview, system)} />
          <p className={styles.small}>
            On level ground, with stiff parts. Frame, wheels and trough are not among the numbers: what runs
            past them must be measured.
          </p>
        </section>
      )}
      <section aria-labelledby="gaps-measured">
        <h3 id="gaps-measured">As measured</h3>
        <div className="field-grid no-print">
          <NumberFields id="gap" numbers={numbers} names={names} />
        </div>
        <Given numbers={numbers} names={names} />
        <Told wrong={numbers.wrong(names)}>
          <Facts facts={measuredFacts(numbers, machine, names, system)} />
        </Told>
      </section>
      <p className={styles.small}>
        {"counterweightMass" in machine ? "Measure with the counterweight on, and" : "Measure it, and"} again
        after the first throw. What rubs leaves bright or dark marks: look for them. The inspector turns it
        through its whole way.
      </p>
      <PrintSection />
    </>
  );
}

function ownFacts(machine: Machine, preview: Preview | null, system: UnitSystem): Fact[] {
  const gaps = groundGaps(machine);
  if (!gaps) return [];
  const { tipCocked, tipDown, counterweight, sized } = gaps;
  const facts: Fact[] = [
    gapFact("Tip to ground, cocked", tipCocked, system, "too low"),
    gapFact(
      "Tip to ground, arm hanging straight down",
      tipDown,
      system,
      "too long: nothing but its stop or its friction keeps it from there after a dry fire",
    ),
  ];
  if (counterweight !== null)
    facts.push(
      gapFact(
        `Counterweight to ground at its lowest${sized ? "" : " (its centre: no radius is declared)"}`,
        counterweight,
        system,
        "too low",
      ),
    );
  const frames = preview?.swing?.frames ?? [];
  if (frames.length > 0 && counterweight !== null && "counterweightSize" in machine) {
    const least = Math.min(...frames.map((frame) => frame.counterweight[1])) - machine.counterweightSize;
    facts.push(gapFact("Counterweight to ground in the throw, swinging on held", least, system, "too low"));
  }
  return facts;
}

/** Less than this between what moves and the ground is told as little. Common practice, no source. */
const LITTLE = 0.1; // m

/** A gap by the machine's own numbers. @param beyond what is said of one that it lacks */
export function gapFact(label: string, metres: number, system: UnitSystem, beyond: string): Fact {
  const text = atLeastSize(Math.max(0, metres), system);
  if (metres < 0) return { label, text: `strikes, ${sizeText(-metres, system)} ${beyond}`, short: true };
  if (text === atLeastSize(0, system))
    return { label, text: "touches: nothing is left between", short: true };
  if (metres < LITTLE)
    return {
      label,
      text: `${text}: little, for ground is never level, ropes stretch and arms bend`,
      short: true,
    };
  return { label, text };
}

function measuredFacts(
  { value }: Numbers<Name, never>,
  machine: Machine,
  names: readonly Name[],
  system: UnitSystem,
): Fact[] {
  const facts: Fact[] = [];
  const compare = (label: string, measured: number, wanted: number | undefined, more = "") => {
    // With nothing left between it rubs or strikes, whatever anybody wants.
    const short = measured <= 0 || (wanted !== undefined && exceeds(wanted, measured));
    const told = besideLimit(measured, wanted ?? measured, (gap, digits) =>
      gapText(gap, system, short ? digits : 0),
    );
    const beside = wanted === undefined ? "" : `, ${told.limit} wanted`;
    facts.push({
      label,
      text: `${measured < 0 ? "strikes: " : measured === 0 ? "touches: " : ""}${told.value}${beside}${more}`,
      short,
    });
  };
  const [rim, hanger, tip] = [value("rim"), value("hanger"), value("tip")];
  if (names.includes("rim") && rim !== undefined) compare("Wheel rim to track", rim, value("rimWanted"));
  if (names.includes("hanger") && hanger !== undefined) {
    const lean = value("lean") ?? ("leanAcross" in machine ? machine.leanAcross : 0);
    const moved = machine.kind === "hinged-counterweight" ? sway(machine.hangerLength, lean) : 0;
    const more =
      moved > 0 ? `; ${gapText(moved, system)} of it were taken by hanging plumb on a leaning frame` : "";
    compare("Counterweight to frame, leaning", hanger - moved, value("hangerWanted"), more);
  }
  if (tip !== undefined) compare("Tip to what it passes", tip, value("tipWanted"));
  return facts;
}
