/** The calculator's fields. Each is keyed by its path in the API's request, so that errors find their way back. */
import { defaultPolicy, MACHINE_KINDS, type Machine, machineKind } from "@/lib/throw";
import type { Dimension } from "@/lib/units";

export type Kind = Machine["kind"];

export interface FieldSpec {
  /** In the request: "machine.longArm". */
  path: string;
  label: string;
  dimension: Dimension;
  optional: boolean;
  help: string;
}

const field = (
  path: string,
  label: string,
  dimension: Dimension,
  help: string,
  optional = true,
): FieldSpec => ({
  path,
  label,
  dimension,
  optional,
  help,
});

export function machineFields(kind: Kind): FieldSpec[] {
  return machineKind(kind).parameters.map(({ name, label, dimension, help, required }) =>
    field(`machine.${name}`, label, dimension, help, !required),
  );
}

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
  field("air.wind.height", "Anemometer height", "length", "10 m if left empty. Wind grows with height."),
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
  field(
    "policy.minimum.forward",
    "Least distance forward",
    "distance",
    "Nobody nearer ahead, whatever the throw.",
  ),
  field("policy.minimum.backward", "Least distance backward", "distance", "Nobody nearer behind."),
  field("policy.minimum.side", "Least distance to the side", "distance", "Nobody nearer on either side."),
];

export function toleranceFields(kind: Kind): FieldSpec[] {
  const projectile = [
    { name: "mass", label: "Projectile mass", dimension: "mass" as const },
    { name: "diameter", label: "Projectile diameter", dimension: "length" as const },
  ];
  return [...machineKind(kind).parameters, ...projectile].map(({ name, label, dimension }) =>
    field(`tolerances.${name}`, `${label} ±`, dimension, ""),
  );
}

/** Of one kind: these are kept for each kind by itself. */
export const ownFields = (kind: Kind): FieldSpec[] => [
  ...machineFields(kind),
  ...projectileFields,
  ...dragFields,
  ...toleranceFields(kind),
];

/** The same whatever the machine. */
export const sharedFields: readonly FieldSpec[] = [...airFields, ...windFields, ...policyFields];

export const allFields = (kind: Kind): FieldSpec[] => [...ownFields(kind), ...sharedFields];

export const KINDS: readonly Kind[] = MACHINE_KINDS.map((each) => each.kind);

/** What a fresh form holds: the kind's invented example and the policy's defaults. SI by path. */
export function startingValues(kind: Kind): Record<string, number> {
  const { example, exampleProjectile } = machineKind(kind);
  const values: Record<string, number> = {};
  for (const { path } of machineFields(kind)) {
    const value = (example as unknown as Record<string, unknown>)[path.slice("machine.".length)];
    if (typeof value === "number") values[path] = value;
  }
  values["projectile.mass"] = exampleProjectile.mass;
  values["projectile.diameter"] = exampleProjectile.diameter;
  return { ...values, ...policyValues() };
}

function policyValues(): Record<string, number> {
  const { margin, angles, minimum } = defaultPolicy;
  return {
    "policy.margin": margin,
    "policy.angles.aim": angles.aim,
    "policy.angles.lean": angles.lean,
    "policy.angles.tornSling": angles.tornSling,
    "policy.minimum.forward": minimum.forward,
    "policy.minimum.backward": minimum.backward,
    "policy.minimum.side": minimum.side,
  };
}

/** An id for a path: paths have dots, which selectors do not like. */
export const fieldId = (path: string): string => `field-${path.replaceAll(".", "-")}`;
