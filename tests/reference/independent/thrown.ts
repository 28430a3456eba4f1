/** A throw of exactly known speed, angle and height through the engine, for the references of the flight. */
import { type HazardRequestInput, hazardRequestSchema, type Nominal, preview } from "@/lib/throw";

export const G = 9.80665;
export const STANDARD = { temperature: 288.15, pressure: 101_325 };
export const DENSITY = 1.225;

export function thrown(
  releaseSpeed: number,
  launchAngle: number,
  launchHeight: number,
  projectile: HazardRequestInput["projectile"],
  air: HazardRequestInput["air"] = STANDARD,
  terrain?: HazardRequestInput["terrain"],
): Nominal {
  const request = hazardRequestSchema.parse({
    machine: { kind: "measured", releaseSpeed, launchAngle, launchHeight },
    projectile: { lift: 0, ...projectile },
    tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
    air,
    terrain,
  });
  const { nominal } = preview(request);
  if (!nominal) throw new Error("A measured machine always throws.");
  return nominal;
}

export const constant = (drag: number) => ({ nominal: drag, low: drag, high: drag });
