/** What is asked for whatever the machine: projectile, air, ground, policy. */
import { defaultPolicy } from "@/lib/throw";
import { type FieldSpec, field } from "./specs";

export const projectileFields: readonly FieldSpec[] = [
  field(
    "projectile.mass",
    "Projectile mass",
    "mass",
    "The heaviest it may be can fly as far: see tolerances.",
    false,
  ),
  field("projectile.diameter", "Projectile diameter", "length", "Across its middle.", false),
];

export const dragFields: readonly FieldSpec[] = [
  field(
    "projectile.drag.nominal",
    "Drag, expected",
    "ratio",
    "Coefficient on the frontal area. By shape if all three are left empty.",
  ),
  field("projectile.drag.low", "Drag, lowest", "ratio", "Worst throws use this one."),
  field("projectile.drag.high", "Drag, highest", "ratio", "Not below the expected one."),
  field(
    "projectile.lift",
    "Largest lift",
    "ratio",
    "Lift coefficient from spin, of either sign; by shape if left empty.",
  ),
];

export const airFields: readonly FieldSpec[] = [
  field("air.temperature", "Air temperature", "temperature", "15 °C if left empty."),
  field(
    "air.pressure",
    "Station pressure",
    "pressure",
    "As a barometer on the field reads, not brought to sea level; from the altitude if left empty.",
  ),
  field(
    "air.altitude",
    "Altitude",
    "distance",
    "Of the field above the sea; serves only when the pressure is left empty.",
  ),
  field("air.wind.height", "Anemometer height", "length", "10 m if left empty. Wind grows with height."),
];

export const windFields: readonly FieldSpec[] = [
  field("air.wind.speed", "Mean wind", "speed", "Still air if left empty."),
  field(
    "air.wind.gust",
    "Top gust",
    "speed",
    "The top speed, not an addition. Worst throws take it from its worst direction.",
  ),
  field(
    "air.wind.direction",
    "Wind blows towards",
    "angle",
    "Degrees clockwise from the bearing: 0 a tail wind, 180 a head wind.",
  ),
];

export const terrainFields: readonly FieldSpec[] = [
  field(
    "terrain.below",
    "Landing ground lies lower by",
    "distance",
    "Below the ground the machine stands on; level with it if left empty.",
  ),
  field(
    "terrain.slope",
    "Falls away downrange by",
    "angle",
    "Degrees along the bearing; negative where it rises. Level if left empty.",
  ),
  field(
    "terrain.crossSlope",
    "Falls away to the right by",
    "angle",
    "Degrees across the bearing; zones take the falling side for both.",
  ),
];

export const policyFields: readonly FieldSpec[] = [
  field("policy.margin", "Margin", "ratio", "Multiplies every first-impact distance."),
  field("policy.angles.aim", "Aim", "angle", "How far off the bearing the machine may point, either way."),
  field("policy.angles.lean", "Lean and twist", "angle", "Of the frame and the arm, either way."),
  field(
    "policy.angles.tornSling",
    "Torn sling",
    "angle",
    "How far a projectile leaves the plane when one leg tears or it strikes the frame.",
  ),
  field("policy.angles.debris", "Debris", "angle", "Pieces of a machine that breaks, to either side."),
  field(
    "policy.minimum.forward",
    "Least distance forward",
    "distance",
    "Nobody nearer ahead, whatever the throw.",
  ),
  field("policy.minimum.backward", "Least distance backward", "distance", "Nobody nearer behind."),
  field("policy.minimum.side", "Least distance to the side", "distance", "Nobody nearer on either side."),
];

/** What may be brought to the line apart from the declared projectile. */
export const ruleFields: readonly FieldSpec[] = [
  field("policy.projectiles.mass.min", "Least mass", "mass", "That the contest's rule allows."),
  field("policy.projectiles.mass.max", "Largest mass", "mass", "That the contest's rule allows."),
  field("policy.projectiles.diameter.min", "Least diameter", "length", "That the contest's rule allows."),
  field("policy.projectiles.diameter.max", "Largest diameter", "length", "That the contest's rule allows."),
  field(
    "policy.projectiles.pieceShare",
    "Least piece",
    "ratio",
    "Share of the load that may be left in the sling when the rest is lost: 0.25 is a quarter.",
  ),
  field(
    "policy.projectiles.substituteDensity",
    "Densest substitute",
    "density",
    "Of what somebody might throw in its place: stone is near 2700 kg/m³, iron 7800.",
  ),
];

/** The policy's documented defaults, SI by path. */
export function policyValues(): Record<string, number> {
  const { margin, angles, minimum } = defaultPolicy;
  return {
    "policy.margin": margin,
    "policy.angles.aim": angles.aim,
    "policy.angles.lean": angles.lean,
    "policy.angles.tornSling": angles.tornSling,
    "policy.angles.debris": angles.debris,
    "policy.minimum.forward": minimum.forward,
    "policy.minimum.backward": minimum.backward,
    "policy.minimum.side": minimum.side,
  };
}
