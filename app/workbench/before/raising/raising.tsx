"use client";
/** The pull at the worst angle, and what each line, rope and winch has of it. */
import { atLeastText, besideLimit, exceeds } from "@/app/_ui/beside-limit";
import { loadText } from "@/app/_ui/hazard-sheet/words";
import { leanText, shareText } from "@/app/_ui/inspection/texts";
import { useUnits } from "@/app/_ui/units";
import { STANDARD_GRAVITY } from "@/lib/earth";
import {
  cockedBy,
  haulingPull,
  ROPE_FACTOR,
  ratingFor,
  reserveOfRope,
  SHEAVE,
  standingUp,
  type Turned,
  turn,
} from "@/lib/inspection";
import type { Machine } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import styles from "../before.module.css";
import type { Asks } from "../numbers/asks";
import { ChoiceSelect } from "../numbers/choice-select";
import { type Fact, Facts, Needs, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { type Numbers, useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";

type Name =
  | "hold"
  | "winchX"
  | "winchY"
  | "mass"
  | "centre"
  | "held"
  | "poleX"
  | "poleY"
  | "ropeRating"
  | "winchRating";
type Choice = "task" | "parts" | "knots" | "wet";

const length = (label: string, help: string) => ({ label, dimension: "length" as const, help });

const ASKS: Asks<Name> = {
  hold: {
    ...length("Where the line holds the arm", "From the pivot; at the tip if left empty."),
    range: "positive",
  },
  winchX: length(
    "Winch or its last sheave, uprange of the pivot",
    "Along the ground; right below the cocked tip if left empty.",
  ),
  winchY: length("Height of that winch or sheave", "Above the ground; on the ground if left empty."),
  mass: {
    label: "Mass to stand up",
    dimension: "mass",
    help: "Of all that turns about the foot.",
    range: "positive",
    needed: true,
  },
  centre: {
    ...length("Centre of mass of what is stood up", "From the foot about which it turns."),
    range: "positive",
    needed: true,
  },
  held: {
    ...length("Where the line holds what is stood up", "From the foot."),
    range: "positive",
    needed: true,
  },
  poleX: length(
    "Winch or top of the gin pole, behind the foot",
    "Away from what lies; right above the foot if left empty. A pole that leans along gains as it goes: that is not counted.",
  ),
  poleY: {
    ...length("Height of that winch or pole", "Above the foot."),
    range: "not-negative",
    needed: true,
  },
  ropeRating: {
    label: "Rope's breaking strength",
    dimension: "force",
    help: "As its maker quotes it: dry, new, without knots.",
    range: "positive",
  },
  winchRating: {
    label: "Winch's rating",
    dimension: "force",
    help: "On the layer of rope it stands on.",
    range: "positive",
  },
};
const OPTIONS = {
  task: ["cock", "stand"],
  parts: ["1", "2", "3", "4", "5", "6"],
  knots: ["knotted", "spliced"],
  wet: ["wet", "dry"],
} as const;
const TACKLE = ["ropeRating", "winchRating"] as const;

export function Raising({ request: { machine }, found, title }: SectionProps) {
  const system = useUnits();
  const gravity = found?.gravity ?? STANDARD_GRAVITY;
  const numbers = useNumbers<Name, Choice>("fairthrow-before-raising", ASKS, OPTIONS);
  const { choices } = numbers.form;
  const turns = cockedBy(machine, gravity) !== null;
  const cocks = turns && choices.task === "cock";
  const names: Name[] = [
    ...(cocks
      ? (["hold", "winchX", "winchY"] as const)
      : (["mass", "centre", "held", "poleX", "poleY"] as const)),
    ...TACKLE,
  ];
  const pulled = cocks ? pullOfCocking(numbers, machine, gravity) : pullOfStanding(numbers, gravity);
  const select = (name: Choice, label: string, help: string, words: Record<string, string>) => (
    <ChoiceSelect id="raise" numbers={numbers} values={OPTIONS[name]} {...{ name, label, help, words }} />
  );
  return (
    <>
      <p className={styles.of}>{title}</p>
      <div className="field-grid no-print">
        {turns &&
          select(
            "task",
            "What a line turns",
            "The arm as it is cocked; or a frame that lies, about its foot.",
            {
              cock: "The arm, drawn down",
              stand: "What lies, stood up",
            },
          )}
        <NumberFields id="raise" numbers={numbers} names={names} />
        {select(
          "parts",
          "Ropes that carry the pull",
          `Of the tackle, counted at its moving block; each sheave passes on ${shareText(SHEAVE)} (handbook, from memory).`,
          { "1": "1, a single line" },
        )}
        {select("knots", "Its ends", "A knot leaves half (common practice, no source).", {
          knotted: "Knotted",
          spliced: "Spliced, or a clamped thimble",
        })}
        {select("wet", "Weather", "Wet rope loses 15 %.", { wet: "May be wet", dry: "Dry" })}
      </div>
      <Given
        numbers={numbers}
        names={names}
        chosen={[
          cocks ? "The arm is drawn down" : "It is stood up",
          `${choices.parts} ropes carry the pull, ${choices.knots}, ${choices.wet}`,
        ]}
      />
      <Told wrong={numbers.wrong(names)}>
        {pulled === null ? (
          <Needs what="The pull" labels={cocks ? [] : numbers.missing("mass", "centre", "held", "poleY")} />
        ) : (
          <Facts facts={factsOf(pulled, numbers, system)} />
        )}
      </Told>
      <p className={styles.small}>
        Moment of weight and springs over the lever of the line, at every quarter degree, without friction of
        the pivot and without jerks: a load that is let down fast and caught weighs twice as much or more.
        Ropes take a fifth of their strength (ASME B30.9, from memory). Look up first: lines over the place
        are kept clear of, by their owner's distance. Nobody stands under it or in the line of a rope;
        somebody who rigs loads by trade looks at it.
      </p>
      <PrintSection />
    </>
  );
}

interface Pulled {
  turned: Turned;
  /** What an angle of the calculation is to people. */
  angleWords: (phi: number) => string;
}

function pullOfCocking({ value }: Numbers<Name, Choice>, machine: Machine, gravity: number): Pulled | null {
  const turned = cockedBy(machine, gravity, {
    held: value("hold"),
    uprange: value("winchX"),
    height: value("winchY"),
  });
  return (
    turned && {
      turned,
      angleWords: (phi) => {
        const above = 180 - (phi * 180) / Math.PI;
        return `the arm ${leanText(Math.abs(above))} ${above >= 0 ? "above" : "below"} level`;
      },
    }
  );
}

function pullOfStanding({ value }: Numbers<Name, Choice>, gravity: number): Pulled | null {
  const [mass, centre, held, height] = [value("mass"), value("centre"), value("held"), value("poleY")];
  if (mass === undefined || centre === undefined || held === undefined || height === undefined) return null;
  const turning = standingUp({ mass, centre, held }, gravity);
  return {
    turned: turn(turning, { x: -(value("poleX") ?? 0), y: height }),
    angleWords: (phi) => `${leanText((phi * 180) / Math.PI)} above level`,
  };
}

function factsOf(
  { turned, angleWords }: Pulled,
  { value, form: { choices } }: Numbers<Name, Choice>,
  system: ReturnType<typeof useUnits>,
): Fact[] {
  if (!turned.ok) {
    const text = `From ${angleWords(turned.blocked)} on, the line from there no longer turns it. Lead it from another place.`;
    return [{ label: "The pull", text, short: true }];
  }
  const { worst, last, byItself } = turned;
  const force = (newtons: number) => loadText(newtons, "force", system);
  // What a rope must bear is never rounded down: half of the last digit is at most half a per cent.
  const needed = (newtons: number) => force(1.005 * newtons);
  const rope = { knotted: choices.knots === "knotted", wet: choices.wet === "wet" };
  const line = haulingPull(worst.pull, Number(choices.parts), SHEAVE);
  const facts: Fact[] = [
    { label: "Largest pull", text: `${force(worst.pull)}, with ${angleWords(worst.phi)}` },
    { label: "Pull at the end", text: force(last.pull) },
    {
      label: "On the hauling line",
      text: `${force(line)} with ${choices.parts} ${choices.parts === "1" ? "rope" : "ropes"}`,
    },
    { label: "A rope that does", text: `breaks at ${needed(ratingFor(line, ROPE_FACTOR, rope))} or more` },
  ];
  if (byItself !== null)
    facts.push({
      label: "Goes on by itself",
      text: `from ${angleWords(byItself)}: hold it back with a second line`,
      short: true,
    });
  const [ropeRating, winchRating] = [value("ropeRating"), value("winchRating")];
  if (ropeRating !== undefined && line > 0) {
    const reserve = reserveOfRope(line, ropeRating, rope);
    const text = `${atLeastText(reserve)} times the pull, usual is ${ROPE_FACTOR}`;
    facts.push({ label: "This rope holds", text, short: exceeds(ROPE_FACTOR, reserve) });
  }
  if (winchRating !== undefined) {
    const short = exceeds(line, winchRating);
    const { value: pull, limit } = besideLimit(line, winchRating, (newtons, more) =>
      short && more > 0
        ? formatQuantity(newtons, "force", system, { uncertainty: (0.03 * line) / 10 ** more })
        : force(newtons),
    );
    facts.push({ label: "The winch", text: `rated ${limit} for ${pull}`, short });
  }
  return facts;
}
