/** The loads of machines whose throw follows from formulas: what makes sense of each kind. */
import type { Loads, Sweep } from "../contracts/loads";
import type { HazardRequest } from "../contracts/request";
import type { Strengths } from "../contracts/strengths";
import { DrawCurve } from "../machines/draw-curve";
import type { FormulaParts } from "../machines/kind";
import { machineKind } from "../machines/registry";
import { reserveOf, reserveWarning } from "./reserve";

/** What a kind by formula says of its parts; nothing for one of which only the speed is known. */
export function partsOf({ machine }: Pick<HazardRequest, "machine">): FormulaParts {
  const { motion } = machineKind(machine.kind);
  return (motion.by === "formula" && motion.parts?.(machine)) || {};
}

/** Energy stored by drawing to the full length (J), and the largest force on the way (N). */
export function drawEnergy({ draw = [], drawForceScale = 1 }: FormulaParts): {
  energy: number;
  peak: number;
} {
  const { energy } = new DrawCurve(draw, drawForceScale);
  return { energy, peak: drawForceScale * Math.max(0, ...draw.map(({ force }) => force)) };
}

const NOTHING: Loads = {
  sling: null,
  arm: null,
  pivot: null,
  hanger: null,
  stability: null,
  stabilityNote: "Tipping and sliding are computed for arm machines only.",
  energyLeft: null,
  spin: null,
  draw: null,
  chamber: null,
  assumptions: [],
  warnings: [],
};

/** Loads of a machine by formula; all null for one of which only the speed is known. */
export function formulaLoads(request: HazardRequest & { strengths?: Strengths | undefined }): Loads {
  const parts = partsOf(request);
  if (parts.armLength !== undefined && parts.spinRate !== undefined) {
    const squared = parts.spinRate ** 2;
    return {
      ...NOTHING,
      spin: {
        projectilePull: request.projectile.mass * squared * parts.armLength,
        // A uniform rod's centre runs at half its length.
        armPull: parts.armMass === undefined ? null : (parts.armMass * squared * parts.armLength) / 2,
      },
      assumptions: [
        "The arm is a uniform rod turning about its end; its hub bears both pulls, and shakes by their difference from a balance weight's.",
      ],
    };
  }
  if (parts.draw) {
    const { energy, peak } = drawEnergy(parts);
    return {
      ...NOTHING,
      draw: { peakForce: peak, storedEnergy: energy },
      assumptions: ["All the work of drawing is stored: nothing is lost in the limbs or cords."],
    };
  }
  if (parts.chamberPressure !== undefined && parts.boreDiameter !== undefined) {
    const rating = request.strengths?.chamberRating ?? parts.ratedPressure ?? null;
    const reserve = reserveOf(
      parts.chamberPressure,
      rating,
      1,
      rating === null
        ? "Declare the pressure to which the chamber is rated."
        : "The rated pressure as marked; age, cold, sunlight and solvents take from plastics. Pipe that is not rated for compressed gas is not rated at all.",
    );
    return {
      ...NOTHING,
      chamber: { capForce: (parts.chamberPressure * Math.PI * parts.boreDiameter ** 2) / 4, reserve },
      assumptions: [
        "The force of the gas is that on a cap of the bore's area; a wider chamber's cap bears more by its area.",
      ],
      warnings: reserveWarning("chamber-reserve", "The chamber", reserve),
    };
  }
  return NOTHING;
}

/** The circle that a spinning arm sweeps, the room of what does not swing. */
export function formulaSweep(request: HazardRequest): Sweep | null {
  const parts = partsOf(request);
  if (parts.armLength === undefined) return null;
  const radius = parts.armLength + request.projectile.diameter / 2;
  const height = (parts.launchHeight ?? 0) + (parts.plane === "horizontal" ? 0 : radius);
  const extent = { height, forward: radius, backward: radius };
  const by = "The projectile at the arm's end";
  return { all: extent, untilRelease: extent, by: { height: by, forward: by, backward: by } };
}
