/**
 * A throw as the calibration takes it. What nobody wrote down of it is what its machine was declared with then, which the
 * log keeps with it: never what stands on the bench today. Pure.
 */
import type { HazardRequest, MeasuredThrow } from "@/lib/throw";
import { tuning } from "@/lib/throw";
import { type MEANS, mainSetting, type Throw } from "./log";

/** Standard uncertainty of a mark in grass by how it was measured, m and share of it. Common practice, no source. */
const USUAL: Record<(typeof MEANS)[number], { least: number; share: number }> = {
  tape: { least: 0.3, share: 0 },
  wheel: { least: 0.3, share: 0.01 },
  laser: { least: 1, share: 0 },
  phone: { least: 5, share: 0 },
  paces: { least: 0.5, share: 0.05 },
};

export const usualUncertainty = (means: (typeof MEANS)[number], distance: number): number =>
  Math.hypot(USUAL[means].least, USUAL[means].share * distance);

/** A team's own anemometer is held up by hand, m: a wind of which nobody says at what height it was read. */
export const HAND_HEIGHT = 2;

const LEVEL = { below: 0, slope: 0, crossSlope: 0 };

/** The settings and the mass that it was made with, and which of them are only what was declared then. */
export function thrownWith({ settings, mass }: Throw, declared: HazardRequest) {
  const { name } = mainSetting(declared);
  const missing = settings[name] === undefined ? tuning.knobValue(declared, name) : undefined;
  return {
    settings: missing === undefined ? settings : { [name]: missing, ...settings },
    mass: mass ?? declared.projectile.mass,
    assumed: { setting: missing !== undefined, mass: mass === null },
  };
}

/**
 * @param declared the machine as it was when the throw was made
 * @returns null where it has no mark
 */
export function measuredOf(made: Throw, declared: HazardRequest): MeasuredThrow | null {
  const { distance, aside, uncertainty, means, wind } = made;
  if (distance === null) return null;
  const { settings, mass } = thrownWith(made, declared);
  const over = Math.hypot(distance, aside ?? 0);
  const { speed = 0, direction = 0, height = 10 } = wind ?? declared.air?.wind ?? {};
  return {
    distance: over,
    uncertainty: uncertainty || (means ? usualUncertainty(means, over) : 0),
    wind: { speed, direction, height },
    // Said in any case: that of another throw must not stand in for it.
    air: airOf(made, declared),
    terrain: declared.terrain ?? LEVEL,
    mass,
    settings,
  };
}

/** What was read at the throw, else what was declared then. */
export function airOf({ air }: Throw, declared: HazardRequest): NonNullable<MeasuredThrow["air"]> {
  const { wind: _, ...then } = declared.air ?? {};
  return {
    ...then,
    ...(air?.temperature != null && { temperature: air.temperature }),
    ...(air?.pressure != null && { pressure: air.pressure }),
  };
}
