/** What both counterweight machines on a fixed pivot share: parameters, and the arm's own inertia. */

import { z } from "zod";
import type { Carrier } from "../swing/carrier";
import type { ParameterInfo } from "./kind";
import { base, friction, heightOrZero, inertiaOrZero, length, mass, massOrZero } from "./numbers";

/** Degrees by which the long arm points below the horizontal when triggered. */
export const cockedAngle = z.number().min(-90).max(90);

/** Degrees between the sling and the outward line of the arm; 0 in line, positive before. */
export const releaseAngle = z.number().min(-720).max(180);

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
  base,
};

const parameter = (
  name: string,
  label: string,
  dimension: ParameterInfo["dimension"],
  required: boolean,
  help: string,
): ParameterInfo => ({ name, label, dimension, required, help });

/** The sling, its trough and its pin: the same for every arm machine. */
export const slingParameters: readonly ParameterInfo[] = [
  parameter(
    "slingLength",
    "Sling length",
    "length",
    true,
    "From the arm's tip to the centre of the projectile.",
  ),
  parameter(
    "troughHeight",
    "Trough height",
    "length",
    false,
    "Of the projectile's centre while it slides; 0 if left empty.",
  ),
  parameter(
    "troughFriction",
    "Trough friction",
    "ratio",
    false,
    "Friction coefficient on the trough; 0 if left empty.",
  ),
  parameter(
    "releaseAngle",
    "Release angle",
    "angle",
    true,
    "Between the sling and the outward line of the arm when the loop slips; 0 in line, positive before.",
  ),
];

export const armParameters: readonly ParameterInfo[] = [
  parameter("armMass", "Arm mass", "mass", true, "Without counterweight and sling."),
  parameter(
    "armCentre",
    "Arm's centre of mass",
    "length",
    false,
    "From the short end; the middle if left empty.",
  ),
  parameter(
    "armInertia",
    "Arm's moment of inertia",
    "inertia",
    false,
    "About its own centre; a uniform rod if left empty.",
  ),
];

export const armMachineParameters: readonly ParameterInfo[] = [
  parameter("longArm", "Long arm", "length", true, "From the pivot to the tip."),
  parameter("shortArm", "Short arm", "length", true, "From the pivot to the counterweight's end."),
  parameter("pivotHeight", "Pivot height", "length", true, "Of the pivot above the ground."),
  parameter(
    "cockedAngle",
    "Cocked angle",
    "angle",
    true,
    "How far the long arm points below the horizontal when triggered.",
  ),
  ...armParameters,
  parameter("counterweightMass", "Counterweight", "mass", true, "With its box or cradle."),
  parameter(
    "counterweightInertia",
    "Counterweight's moment of inertia",
    "inertia",
    false,
    "About its own centre; 0 if left empty.",
  ),
  parameter(
    "counterweightSize",
    "Counterweight's radius",
    "length",
    false,
    "For its gap to the ground; 0 if left empty.",
  ),
  ...slingParameters,
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
  return {
    startAngle: startAngleOf(machine.cockedAngle),
    tipX: machine.longArm,
    tipY: machine.longArm,
    originY: machine.pivotHeight,
    shortArm: machine.shortArm,
    inertia:
      body.inertia + machine.armMass * body.offset ** 2 + machine.counterweightMass * machine.shortArm ** 2,
    inertiaCos2: 0,
    moment: machine.counterweightMass * machine.shortArm - machine.armMass * body.offset,
    hanger: null,
    floats: false,
    endStop: null,
    counterweightSize: machine.counterweightSize,
  };
}
