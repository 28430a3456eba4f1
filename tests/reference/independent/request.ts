/** Asks the engine for exactly the machine described: no tolerance, no lift, one drag value, no wind. */
import { type HazardRequest, hazardRequestSchema, type Machine, machineKind } from "@/lib/throw";
import { airDensity, dragPerMass } from "./flight";
import type { ArmMachine } from "./mechanism";

export const TEMPERATURE = 288.15;
export const PRESSURE = 101_325;

export interface ExactProjectile {
  mass: number;
  diameter: number;
  drag: number;
}

export function exactRequest(
  machine: ArmMachine,
  { mass, diameter, drag }: ExactProjectile,
  pressure = PRESSURE,
): HazardRequest {
  const tolerances: Record<string, number> = { mass: 0, diameter: 0 };
  for (const { name } of machineKind(machine.kind as Machine["kind"]).parameters) tolerances[name] = 0;
  return hazardRequestSchema.parse({
    machine,
    projectile: { mass, diameter, drag: { nominal: drag, low: drag, high: drag }, lift: 0 },
    tolerances,
    air: { temperature: TEMPERATURE, pressure },
  });
}

/** ½·ρ·C_d·A/m of the same projectile in the same air. */
export const dragOf = ({ mass, diameter, drag }: ExactProjectile) =>
  dragPerMass(airDensity(TEMPERATURE, PRESSURE), drag, diameter, mass);
