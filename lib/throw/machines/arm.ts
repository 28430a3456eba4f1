/**
 * What the machines with an arm share: parameters, and the arm's own inertia.
 *
 * Default tolerances, common practice without a source: lengths by tape to 1 %, what is hung or tied to 2 %, the
 * cocked angle to 2°, weighed counterweights to 3 %, arms to 5 % (wood dries), estimated inertias to 10 %, friction by
 * 0.1 (wet or dusty), lean by 1°.
 */

import { z } from "zod";
import type { Carrier } from "../swing/carrier";
import type { ParameterInfo } from "./kind";
import { base, friction, heightOrZero, inertiaOrZero, length, mass, massOrZero } from "./numbers";

/** Degrees by which the long arm points below the horizontal when triggered. */
export const cockedAngle = z.number().min(-90).max(90);

/** Degrees between the sling and the outward line of the arm; 0 in line, positive before. */
export const releaseAngle = z.number().min(-720).max(180);

/** How the machine stands: its base, and how far it leans, degrees. */
export const standFields = {
  base,
  leanAlong: z.number().min(-30).max(30).default(0),
  leanAcross: z.number().min(-30).max(30).default(0),
};

export const armMachineFields = {
  longArm: length,
  shortArm: length,
  pivotHeight: length,
  cockedAngle,
  armMass: massOrZero,
  armCentre: z.number().min(0).max(200).optional(),
  armInertia: inertiaOrZero.optional(),
  counterweightMass: mass,
  counterweightInertia: inertiaOrZero.default(0),
  counterweightSize: heightOrZero.default(0),
  slingLength: length,
  troughHeight: heightOrZero.default(0),
  troughFriction: friction.default(0),
  releaseAngle,
  ...standFields,
};

type Tolerance = NonNullable<ParameterInfo["tolerance"]>;

export const parameter = (
  name: string,
  label: string,
  dimension: ParameterInfo["dimension"],
  required: boolean,
  help: string,
  tolerance: Tolerance = {},
): ParameterInfo => ({ name, label, dimension, required, help, tolerance });

export const cockedParameter = parameter(
  "cockedAngle",
  "Cocked angle",
  "angle",
  true,
  "How far the long arm points below the horizontal when triggered.",
  { plus: 2 },
);

export const leanParameters: readonly ParameterInfo[] = [
  parameter(
    "leanAlong",
    "Lean along the throw",
    "angle",
    false,
    "How far the whole machine leans downrange, negative uprange; 0 if left empty.",
    { plus: 1 },
  ),
  parameter(
    "leanAcross",
    "Lean to the side",
    "angle",
    false,
    "How far the whole machine leans to the right, negative to the left; 0 if left empty.",
    { plus: 1 },
  ),
];

/** The sling, its trough and its pin: the same for every arm machine. */
export const slingParameters: readonly ParameterInfo[] = [
  parameter(
    "slingLength",
    "Sling length",
    "length",
    true,
    "From the arm's tip to the centre of the projectile.",
    { share: 0.02 },
  ),
  parameter(
    "troughHeight",
    "Trough height",
    "length",
    false,
    "Of the projectile's centre while it slides; 0 if left empty.",
    { share: 0.01 },
  ),
  parameter(
    "troughFriction",
    "Trough friction",
    "ratio",
    false,
    "Friction coefficient on the trough; 0 if left empty.",
    { plus: 0.1 },
  ),
  {
    ...parameter(
      "releaseAngle",
      "Release angle",
      "angle",
      true,
      "Between the sling and the outward line of the arm when the loop slips; 0 in line, positive before.",
      { plus: 5 },
    ),
    onlyNominal: true,
  },
];

/** Whole length of a declared arm, m. */
const wholeOf = ({ longArm, shortArm, armLength }: Record<string, unknown>) =>
  Number(armLength ?? Number(longArm) + Number(shortArm));

export const armParameters: readonly ParameterInfo[] = [
  parameter("armMass", "Arm mass", "mass", true, "Without counterweight and sling.", { share: 0.05 }),
  {
    ...parameter(
      "armCentre",
      "Arm's centre of mass",
      "length",
      false,
      "From the short end; the middle if left empty.",
      { share: 0.02 },
    ),
    derived: (machine) => wholeOf(machine) / 2,
  },
  {
    ...parameter(
      "armInertia",
      "Arm's moment of inertia",
      "inertia",
      false,
      "About its own centre; a uniform rod if left empty.",
      { share: 0.1 },
    ),
    derived: (machine) => (Number(machine.armMass) * wholeOf(machine) ** 2) / 12,
  },
];

export const armMachineParameters: readonly ParameterInfo[] = [
  parameter("longArm", "Long arm", "length", true, "From the pivot to the tip.", { share: 0.01 }),
  parameter("shortArm", "Short arm", "length", true, "From the pivot to the counterweight's end.", {
    share: 0.01,
  }),
  parameter("pivotHeight", "Pivot height", "length", true, "Of the pivot above the ground.", { share: 0.01 }),
  cockedParameter,
  ...armParameters,
  parameter("counterweightMass", "Counterweight", "mass", true, "With its box or cradle.", { share: 0.03 }),
  parameter(
    "counterweightInertia",
    "Counterweight's moment of inertia",
    "inertia",
    false,
    "About its own centre; 0 if left empty.",
    { share: 0.1 },
  ),
  parameter(
    "counterweightSize",
    "Counterweight's radius",
    "length",
    false,
    "For its gap to the ground; 0 if left empty.",
  ),
  ...slingParameters,
  ...leanParameters,
];

interface Arm {
  longArm: number;
  shortArm: number;
  armMass: number;
  armCentre?: number | undefined;
  armInertia?: number | undefined;
}

/** Distance of the arm's centre beyond the pivot towards the tip (m), and its inertia about itself (kg·m²). */
export function armBody(arm: Arm): { offset: number; inertia: number } {
  const whole = arm.longArm + arm.shortArm;
  return {
    offset: (arm.armCentre ?? whole / 2) - arm.shortArm,
    inertia: arm.armInertia ?? (arm.armMass * whole * whole) / 12,
  };
}

/** φ at the trigger, rad: the tip uprange and below. */
export function startAngleOf(cocked: number): number {
  return Math.PI + (cocked * Math.PI) / 180;
}

/** A pivoted arm whose counterweight counts as a point at its short end. */
export function pivotedArm(
  machine: Arm & {
    pivotHeight: number;
    cockedAngle: number;
    counterweightMass: number;
    counterweightSize: number;
  },
): Carrier {
  const body = armBody(machine);
  const moment = machine.counterweightMass * machine.shortArm - machine.armMass * body.offset;
  return {
    startAngle: startAngleOf(machine.cockedAngle),
    tipX: machine.longArm,
    tipY: machine.longArm,
    originY: machine.pivotHeight,
    shortArm: machine.shortArm,
    inertia:
      body.inertia + machine.armMass * body.offset ** 2 + machine.counterweightMass * machine.shortArm ** 2,
    inertiaCos2: 0,
    mass: machine.armMass + machine.counterweightMass,
    moment,
    levelMoment: -moment,
    hanger: null,
    spring: null,
    floats: false,
    endStop: null,
    counterweightSize: machine.counterweightSize,
  };
}
