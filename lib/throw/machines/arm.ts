/** The parameters that both counterweight machines on a fixed pivot share. */

import { z } from "zod";
import type { ParameterInfo } from "./kind";
import { base, friction, heightOrZero, inertiaOrZero, length, mass, massOrZero } from "./numbers";

/** Degrees between the sling and the outward line of the arm; 0 in line, positive before. */
export const releaseAngle = z.number().min(-720).max(180);

export const armMachineFields = {
  longArm: length,
  shortArm: length,
  pivotHeight: length,
  cockedAngle: z.number().min(-89).max(90),
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
