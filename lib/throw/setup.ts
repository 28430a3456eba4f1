/** From a declared machine to the numbers that the swing and the flight need. */
import { normalGravity, STANDARD_GRAVITY } from "../earth";
import { type Machine, machineKind } from "./machines/registry";
import type { SwingSetup } from "./swing/carrier";

/** The part of a hazard request that decides how a machine moves. */
export interface Throwable {
  machine: Machine;
  projectile: { mass: number; diameter: number };
  site?: { latitude: number; height: number } | undefined;
  horizon?: number | undefined;
}

export type ArmMachine = Exclude<Machine, { kind: "measured" }>;

export function gravityOf(request: Throwable): number {
  return request.site ? normalGravity(request.site.latitude, request.site.height) : STANDARD_GRAVITY;
}

/** How long the swing is followed, s from the trigger. */
export function horizonOf(request: Throwable): number {
  if (request.horizon !== undefined) return request.horizon;
  const { machine } = request;
  return machine.kind === "measured" ? 0 : 10 * Math.sqrt(machine.longArm / gravityOf(request));
}

/** @throws TypeError for a measured machine, which has no swing */
export function setupOf(request: Throwable): SwingSetup {
  const { machine } = request;
  const { carrier } = machineKind(machine.kind);
  if (machine.kind === "measured" || !carrier) throw new TypeError("A measured machine has no swing.");
  return {
    carrier: carrier(machine),
    mass: request.projectile.mass,
    slingLength: machine.slingLength,
    troughHeight: machine.troughHeight,
    troughFriction: machine.troughFriction,
    gravity: gravityOf(request),
    horizon: horizonOf(request),
  };
}
