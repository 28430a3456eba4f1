"use client";
/** What pegs and ballast must hold while the machine throws. */
import { loadText } from "@/app/_ui/hazard-sheet/words";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { framePush } from "@/lib/inspection";
import { type Anchoring, anchoring, type HazardRequest } from "@/lib/throw";
import styles from "../before.module.css";
import type { Asks } from "../numbers/asks";
import { type Fact, Facts, Needs, NotKept } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { massText } from "../numbers/texts";
import { type Numbers, useNumbers } from "../numbers/use-numbers";
import type { SectionProps } from "../section-props";

type Name =
  | "level"
  | "upward"
  | "height"
  | "frameMass"
  | "footprint"
  | "friction"
  | "pegLevel"
  | "pegUp"
  | "factor";

const force = (label: string, help: string) => ({
  label,
  dimension: "force" as const,
  help,
  range: "not-negative" as const,
});

const ASKS: Asks<Name> = {
  level: force("Level push on the frame", "The largest of the machine's own loads if left empty."),
  upward: force("Lift on the frame", "The largest of the machine's own loads if left empty."),
  height: {
    label: "Height of the push",
    dimension: "length",
    help: "Of pivot or track if left empty.",
    range: "not-negative",
  },
  frameMass: {
    label: "Frame with its ballast",
    dimension: "mass",
    help: "All that stands still; as declared on What may break if left empty.",
    range: "positive",
  },
  footprint: {
    label: "Length of the base",
    dimension: "length",
    help: "Along the throw; as declared on What may break if left empty.",
    range: "positive",
  },
  friction: {
    label: "Friction on the ground",
    dimension: "ratio",
    help: "Wet grass has less. Common practice, no source.",
    start: 0.3,
    range: "not-negative",
  },
  pegLevel: {
    label: "One peg holds level",
    dimension: "force",
    help: "Tried in this very ground: pull one with a scale in the line.",
    range: "positive",
  },
  pegUp: {
    label: "One peg holds upwards",
    dimension: "force",
    help: "Tried in this very ground.",
    range: "positive",
  },
  factor: {
    label: "Factor on the pegs",
    dimension: "ratio",
    help: "Ground differs from step to step. Common practice, no source.",
    start: 2,
    range: "positive",
  },
};
const NAMES = Object.keys(ASKS) as Name[];
const OPTIONS = {};

/** What of it the machine declares or its loads tell; undefined where they do not. */
function ownOf({ machine, strengths }: HazardRequest, found: SectionProps["found"]) {
  const base = "base" in machine && typeof machine.base === "object" ? machine.base : undefined;
  const push = found ? framePush(found.loads) : null;
  return {
    level: push?.level,
    upward: push?.upward,
    height:
      "trackHeight" in machine
        ? machine.trackHeight
        : "pivotHeight" in machine
          ? machine.pivotHeight
          : undefined,
    frameMass: strengths?.frame?.mass ?? base?.frameMass,
    footprint: strengths?.frame?.footprint ?? base?.footprint,
    friction: strengths?.frame?.friction,
  };
}

export function Anchors({ request, found, gravity }: Omit<SectionProps, "title"> & { gravity: number }) {
  const system = useUnits();
  const numbers = useNumbers<Name, never>("fairthrow-before-anchors", ASKS, OPTIONS);
  const own = ownOf(request, found);
  const value = (name: Name) => numbers.value(name) ?? own[name as keyof typeof own];
  const [level, height, mass, footprint] = [
    value("level"),
    value("height"),
    value("frameMass"),
    value("footprint"),
  ];
  const upward = value("upward") ?? 0;
  const friction = value("friction") ?? 0;
  const anchors =
    level === undefined || height === undefined || mass === undefined || footprint === undefined
      ? null
      : anchoring(level, { mass, footprint, height, friction }, gravity, upward);
  const lacking = (["level", "height", "frameMass", "footprint"] as const)
    .filter((name) => value(name) === undefined)
    .map((name) => ASKS[name].label);
  const taken = { level, upward, mass, footprint, friction };
  return (
    <section aria-labelledby="anchor-title">
      <h3 id="anchor-title">Anchoring</h3>
      <div className="field-grid no-print">
        <NumberFields id="anchor" numbers={numbers} names={NAMES} />
      </div>
      <NotKept kept={numbers.kept} />
      <Given numbers={numbers} names={NAMES} />
      {anchors ? (
        <Facts facts={[...takenFacts(taken, system), ...factsOf(anchors, numbers, found, system)]} />
      ) : (
        <Needs what="What pegs must hold" labels={lacking} />
      )}
      <p className={styles.small}>
        Assumed: the largest level push and the largest lift of throw, swinging on and hang-up stand still and
        act at once above the middle of the base, which is the careful side; what presses down meanwhile is
        left out; the frame is stiff and level. The push goes to and fro, so both ends are held alike. Pegs
        work loose: look after each throw. The safety officer and whoever owns the ground (cables and pipes in
        it) decide where pegs go.
      </p>
    </section>
  );
}

function takenFacts(
  taken: {
    level?: number | undefined;
    upward: number;
    mass?: number | undefined;
    footprint?: number | undefined;
    friction: number;
  },
  system: UnitSystem,
): Fact[] {
  const { level = 0, upward, mass = 0, friction } = taken;
  return [
    {
      label: "Reckoned with",
      text: `${loadText(level, "force", system)} level, ${loadText(upward, "force", system)} up, a frame of ${massText(mass, system)}, friction ${friction}`,
    },
  ];
}

function factsOf(
  { level, down, tippingReserve }: Anchoring,
  { value }: Numbers<Name, never>,
  found: SectionProps["found"],
  system: UnitSystem,
): Fact[] {
  const factor = value("factor") ?? 1;
  const pegs = (load: number, each: number | undefined) =>
    load <= 0
      ? ""
      : each === undefined
        ? `; type what one peg holds`
        : `: ${Math.max(2, Math.ceil((factor * load) / each))} pegs at each end, factor ${factor}`;
  const facts: Fact[] = [
    {
      label: "To hold level, beyond friction",
      text:
        level > 0
          ? `${loadText(level, "force", system)}${pegs(level, value("pegLevel"))}`
          : "nothing by these numbers",
    },
    {
      label: "To hold down at the lifting end",
      text:
        down > 0
          ? `${loadText(down, "force", system)}${pegs(down, value("pegUp"))}`
          : "nothing by these numbers",
    },
  ];
  if (tippingReserve !== null)
    facts.push({
      label: "What holds it down without pegs",
      text: `${Number(tippingReserve.toPrecision(2))} of what the push takes to lift it`,
      short: tippingReserve < 1,
    });
  const stability = found?.loads.stability;
  if (stability)
    facts.push({
      label: "Instant by instant, as declared",
      text: `${stability.tips ? "it tips" : "it does not tip"}; ${stability.friction === null ? "it lifts" : `friction of ${stability.friction.toPrecision(2)} is needed not to slide`}`,
      short: stability.tips || stability.friction === null,
    });
  return facts;
}
