/** The widest limits that a hazard sheet covers: a permit may be narrower, never wider. SI, degrees. */
import type { Declaration, Policy } from "../../throw";
import { type DeclaredDimension, dimensionsOf } from "../inspect/dimensions";
import { passes, type Wind } from "./falls";
import type { PermitLimits } from "./limits";

/** @param wind the strongest in which machines may fire */
export function widestLimits(
  declaration: Declaration,
  policy: Pick<Policy, "projectiles" | "angles">,
  wind: Wind,
): PermitLimits {
  const dimensions = dimensionsOf(declaration);
  const of = (path: string) => dimensions.find((each) => each.path === path);
  const most = (dimension: DeclaredDimension | undefined) =>
    dimension ? dimension.declared + (dimension.tolerance ?? 0) : null;
  const { declared: mass, tolerance } = of("projectile.mass") as DeclaredDimension;
  const rule = policy.projectiles?.mass;
  return {
    wind,
    bearing: policy.angles.aim,
    projectileMass: {
      least: Math.min(mass - (tolerance ?? 0), rule?.min ?? mass),
      most: Math.max(mass + (tolerance ?? 0), rule?.max ?? mass),
    },
    counterweightMass: most(of("machine.counterweightMass")),
    pressure: most(of("machine.chamberPressure")),
  };
}

const ROUNDING = 1e-6;
const above = (value: number, limit: number) => value > limit * (1 + ROUNDING);

/** Where limits go beyond what the sheet covers, or say something of a part that the machine has not. */
export function tooWide(limits: PermitLimits, widest: PermitLimits): { field: string; message: string }[] {
  const wrong: { field: string; message: string }[] = [];
  const say = (field: string, message: string) => wrong.push({ field: `limits.${field}`, message });
  if (passes(limits.wind, widest.wind))
    say(
      "wind",
      "This is stronger than the wind in which machines may fire, which the sheet was computed for.",
    );
  if (limits.wind.speed > limits.wind.gust) say("wind.speed", "The mean is above the gust.");
  if (above(limits.bearing, widest.bearing))
    say("bearing", "This is wider than the policy's angle for aiming, which the zone was made with.");
  if (
    above(limits.projectileMass.most, widest.projectileMass.most) ||
    above(widest.projectileMass.least, limits.projectileMass.least)
  )
    say(
      "projectileMass",
      "The sheet counts no such projectile: keep within what was declared with its tolerance.",
    );
  for (const [name, what] of [
    ["counterweightMass", "counterweight"],
    ["pressure", "pressure"],
  ] as const) {
    const [value, limit] = [limits[name], widest[name]];
    if (limit === null && value !== null) say(name, `This machine has no ${what}: leave it empty.`);
    else if (limit !== null && value === null) say(name, `Give the largest ${what}.`);
    else if (limit !== null && value !== null && above(value, limit))
      say(name, `The sheet counts no larger ${what} than was declared with its tolerance.`);
  }
  return wrong;
}
