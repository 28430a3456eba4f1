/** What two tapes and more have in common: a row of the form, and the observation it makes. */
import { z } from "zod";
import type { Observation } from "../adjust";
import { FIRING_POINT, type Ground } from "../site";
import { levelled } from "../slope";
import { tapeUncertainty } from "../uncertainty";
import { metres, type Warning } from "../warnings";
import type { Field } from "./method";
import { ask, metreUncertainty, optional, pegId, rise, tapeDistance } from "./parts";

export const tapeSchema = z.strictObject({
  /** A control point, or the firing point. */
  from: pegId,
  /** m, along the ground when `rise` is given, else level. */
  distance: tapeDistance,
  /** Of the ground from the peg to the landing point, m. */
  rise: rise.optional(),
  /** Standard uncertainty of the distance, m; a tape's if left out. */
  uncertainty: metreUncertainty,
});
export type Tape = z.output<typeof tapeSchema>;

export const TAPE_FIELDS: readonly Field[] = [
  ask.peg("from", "From", `The peg that holds the tape's zero: a control point or "${FIRING_POINT}".`),
  ask.number("distance", "Tape reads", "distance", "From the peg to the landing point."),
  ask.number(
    "rise",
    "Rise",
    "distance",
    "Of the ground from the peg to the landing point, a fall negative; a tape held level if left empty.",
    optional,
  ),
  ask.number(
    "uncertainty",
    "Uncertainty",
    "distance",
    "Standard; a tape's over grass if left empty.",
    optional,
  ),
];

export function tapedObservations(
  tapes: readonly Tape[],
  ground: Ground,
): { observations: Observation[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  const observations = tapes.map((tape, index): Observation => {
    const station = ground.station(tape.from);
    const { distance, rise: up, uncertainty } = tape;
    const level = levelled(
      distance,
      uncertainty ?? tapeUncertainty(distance),
      up === undefined ? {} : { slope: "rise", rise: up },
    );
    warnings.push(...level.warnings);
    return {
      label: `tape ${index + 1}, from ${station.name}`,
      kind: "distance",
      station,
      value: level.horizontal,
      sigma: Math.hypot(...level.parts.map(({ size }) => size)),
    };
  });
  return { observations, warnings };
}

/** How two tapes that have no point in common miss each other, and what to do. */
export function theyMiss(
  first: Observation,
  second: Observation,
  { gap, apart }: { gap: number; apart: boolean },
): Warning {
  const why = apart
    ? `together they are ${metres(gap)} too short to meet`
    : `the shorter one ends ${metres(gap)} before it could reach the other's arc`;
  return {
    code: "tapes-do-not-meet",
    text: `These tapes cannot both be right, ${first.label} and ${second.label}: ${why}. Check the pegs and read both tapes again.`,
  };
}
