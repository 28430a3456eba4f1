"use client";
/** What the load puts on axle and hitch, against the plates. */
import { besideLimit, exceeds } from "@/app/_ui/beside-limit";
import { massText, shareText, sizeText, weightText } from "@/app/_ui/inspection/texts";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { STANDARD_GRAVITY } from "@/lib/earth";
import { type TrailerLoads, trailerLoads, USUAL_SHARE } from "@/lib/inspection";
import { formatQuantity } from "@/lib/units";
import styles from "../before.module.css";
import type { Asks } from "../numbers/asks";
import { type Fact, Facts, Needs, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";
import { LoadRows } from "./load-rows";
import { itemsOf, unplacedOf, useItems } from "./use-items";

type Name = "axle" | "emptyMass" | "emptyHitch" | "grossRating" | "axleRating" | "hitchRating" | "towRating";

const mass = (label: string, help: string) => ({
  label,
  dimension: "mass" as const,
  help,
  range: "positive" as const,
});

const ASKS: Asks<Name> = {
  axle: {
    label: "Axle behind the hitch",
    dimension: "length",
    help: "Along the trailer, from the middle of the ball to the axle; to the middle of several.",
    range: "positive",
    needed: true,
  },
  emptyMass: { ...mass("Mass of the empty trailer", "From its plate or a scale."), needed: true },
  emptyHitch: {
    label: "Empty trailer's load on the hitch",
    dimension: "mass",
    help: "A bathroom scale under the level drawbar tells it.",
    range: "not-negative",
    needed: true,
  },
  grossRating: mass("Rated gross mass", "From the trailer's plate."),
  axleRating: mass("Rated axle load", "Of all axles together, tyres not less."),
  hitchRating: mass("Rated hitch load", "The least of ball, drawbar and car."),
  towRating: mass("The car's rated trailer mass", "Braked or not, as the trailer is."),
};
const NAMES = Object.keys(ASKS) as Name[];
const OPTIONS = {};

export function Weight({ request, found, title }: SectionProps) {
  const system = useUnits();
  const gravity = found?.gravity ?? STANDARD_GRAVITY;
  const numbers = useNumbers<Name, never>("fairthrow-before-trailer", ASKS, OPTIONS);
  const items = useItems();
  const placed = itemsOf(items.rows);
  const loose = unplacedOf(items.rows);
  const unplaced = loose.reduce((sum, { mass }) => sum + mass, 0);
  const left = items.rows.length - placed.length - loose.length;
  const [axle, empty, hitch] = [
    numbers.value("axle"),
    numbers.value("emptyMass"),
    numbers.value("emptyHitch"),
  ];
  const loads =
    axle === undefined || empty === undefined || hitch === undefined
      ? null
      : trailerLoads({ axle, empty: { mass: empty, hitch }, items: placed, unplaced });
  const rated = (name: Name) => numbers.value(name);
  return (
    <>
      <p className={styles.of}>{title}</p>
      <div className="no-print">
        <div className="field-grid">
          <NumberFields id="trailer" numbers={numbers} names={NAMES} />
        </div>
        <LoadRows items={items} request={request} />
      </div>
      <Given numbers={numbers} names={NAMES} />
      <p className={styles.paper} aria-hidden="true">
        On it:{" "}
        {[
          ...placed.map(
            ({ name, mass: own, at }) =>
              `${name || "item"} ${massText(own, system)} at ${sizeText(at, system)}`,
          ),
          ...loose.map(({ name, mass: own }) => `${name || "item"} ${massText(own, system)}, no place yet`),
        ].join("; ") || "nothing"}
        .
      </p>
      {left > 0 && (
        <p className={styles.needs}>
          {left === 1 ? "One item has" : `${left} items have`} no mass yet and {left === 1 ? "is" : "are"}{" "}
          left out.
        </p>
      )}
      {loose.length > 0 && (
        <p className={styles.needs}>
          {loose.length === 1 ? "One item has" : `${loose.length} items have`} no place yet:{" "}
          {massText(unplaced, system)} count in the gross mass, and axle and hitch lack them.
        </p>
      )}
      <Told wrong={numbers.wrong(NAMES)}>
        {loads ? (
          <Facts
            facts={factsOf(loads, { unplaced, whole: left === 0 && unplaced === 0 }, rated, gravity, system)}
          />
        ) : (
          <Needs what="The weight on the hitch" labels={numbers.missing("axle", "emptyMass", "emptyHitch")} />
        )}
      </Told>
      <p className={styles.small}>
        Equilibrium of moments about the axle, trailer level. {shareText(USUAL_SHARE[0])} to{" "}
        {shareText(USUAL_SHARE[1])} of the gross mass on the hitch: common practice, no source; some countries
        and cars ask for less or cap it. Weigh it on a scale before the road; ratings are the plates&rsquo;,
        and whoever licenses trailers decides.
      </p>
      <PrintSection />
    </>
  );
}

function factsOf(
  { gross, hitch, axle, share, verdict, shift }: TrailerLoads,
  /** kg without a place, and whether every item has its mass and place. */
  { unplaced, whole }: { unplaced: number; whole: boolean },
  rated: (name: Name) => number | undefined,
  gravity: number,
  system: UnitSystem,
): Fact[] {
  const against = (label: string, load: number, ...limits: (number | undefined)[]): Fact => {
    const known = limits.filter((limit) => limit !== undefined);
    const limit = known.length > 0 ? Math.min(...known) : undefined;
    if (limit === undefined) return { label, text: `${weightText(load, gravity, system)}; no rating given` };
    if (!exceeds(load, limit))
      return { label, text: `${weightText(load, gravity, system)}, rated ${massText(limit, system)}` };
    // The weight in brackets is rounded as ever: the masses tell the difference.
    const {
      value,
      limit: rating,
      off,
    } = besideLimit(load, limit, (mass, more) => massText(mass, system, more));
    const weight = weightText(load, gravity, system).replace(massText(load, system), value);
    return { label, text: `${weight}, ${off} over its rating of ${rating}`, short: true };
  };
  const lacking = (fact: Fact): Fact =>
    unplaced > 0
      ? {
          ...fact,
          text: `${fact.text}; without the ${massText(unplaced, system)} that have no place`,
          short: true,
        }
      : fact;
  const moved =
    shift === null || verdict === "usual"
      ? ""
      : ` Moving ${unplaced > 0 ? "all that has a place" : "the whole load"} ${formatQuantity(Math.abs(shift), "length", system, { digits: 2 })} ${shift > 0 ? "towards the hitch" : "away from the hitch"} brings ${shareText((USUAL_SHARE[0] + USUAL_SHARE[1]) / 2)}.`;
  const words = {
    light:
      hitch < 0
        ? "It lifts the hitch: the trailer sways and tips back."
        : "Light on the hitch: the trailer sways.",
    usual: whole ? "Within what is usual." : "Within what is usual without what is left out.",
    heavy: "Heavy on the hitch: the car's front axle lifts.",
  };
  return [
    against("Gross mass", gross, rated("grossRating"), rated("towRating")),
    lacking(against("On the axle", axle, rated("axleRating"))),
    lacking(against("On the hitch", hitch, rated("hitchRating"))),
    {
      label: unplaced > 0 ? "On the hitch, of what has a place" : "Of the gross mass on the hitch",
      text: `${shareText(share)}. ${words[verdict]}${moved}`,
      short: verdict !== "usual" || !whole,
    },
  ];
}
