/** What spotters sent of a shot, as the form has it: a start for the judge, who may change it. Pure. */
import type { UnitSystem } from "@/lib/units";
import { draftOf, type Values } from "./draft";
import type { JudgeShot, Range } from "./entry";

/** Those from posts that the form can name; one that saw nothing is none. */
export function seenFrom(shot: JudgeShot, { pegs }: Pick<Range, "pegs">) {
  return shot.sightings.flatMap((sighting) =>
    sighting.bearing !== null && pegs.some(({ id }) => id === sighting.from)
      ? [{ ...sighting, bearing: sighting.bearing }]
      : [],
  );
}

/** Null while fewer than two posts have seen it. */
export function sightedValues(
  shot: JudgeShot,
  range: Pick<Range, "pegs">,
  system: UnitSystem,
): Values | null {
  const bearings = seenFrom(shot, range).map(({ from, bearing, north, uncertainty }) => ({
    from,
    bearing,
    north,
    uncertainty,
  }));
  if (bearings.length < 2) return null;
  return draftOf({ outcome: "landed", method: "spotters", bearings }, "", system).values.spotters ?? null;
}
