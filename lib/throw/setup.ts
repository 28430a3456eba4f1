/** From a declared machine to the numbers that the swing and the flight need. */
import { normalGravity, STANDARD_GRAVITY } from "../earth";
import { type Machine, machineKind } from "./machines/registry";
import type { Carrier, SwingSetup } from "./swing/carrier";

const RADIAN = Math.PI / 180;

/** The part of a hazard request that decides how a machine moves. */
export interface Throwable {
  machine: Machine;
  projectile: { mass: number; diameter: number };
  site?: { latitude: number; height: number } | undefined;
  horizon?: number | undefined;
}

/** A machine that is swung by its equations of motion. */
export type SwungMachine = Extract<Machine, { cockedAngle: number }>;

export const isSwung = (machine: Machine): machine is SwungMachine =>
  machineKind(machine.kind).motion.by === "swing";

export function gravityOf(request: Pick<Throwable, "site">): number {
  return request.site ? normalGravity(request.site.latitude, request.site.height) : STANDARD_GRAVITY;
}

/** How long the swing is followed, s from the trigger; 0 for a machine without one. */
export function horizonOf(request: Throwable): number {
  if (!isSwung(request.machine)) return 0;
  return request.horizon ?? 10 * Math.sqrt(carrierOf(request.machine).tipY / gravityOf(request));
}

function carrierOf(machine: SwungMachine): Carrier {
  const { motion } = machineKind(machine.kind);
  if (motion.by !== "swing") throw new TypeError(`A ${machine.kind} machine has no swing.`);
  return motion.carrier(machine);
}

/** Whether the frame is held where it stands, or rolls on its wheels. */
export type Frame = "held" | "rolling";

/**
 * @param frame "rolling" lets a frame on wheels roll freely; one without wheels is held all the same
 * @throws TypeError for a machine that is not swung
 */
export function setupOf(request: Throwable, frame: Frame = "held"): SwingSetup {
  const { machine } = request;
  if (!isSwung(machine)) throw new TypeError(`A ${machine.kind} machine has no swing.`);
  const leanAcross = machine.leanAcross * RADIAN;
  return {
    carrier: carrierOf(machine),
    mass: request.projectile.mass,
    slingLength: machine.slingLength ?? 0,
    troughHeight: machine.troughHeight,
    troughFriction: machine.troughFriction,
    releaseAngle: (machine.releaseAngle ?? 0) * RADIAN,
    gravity: gravityOf(request) * Math.cos(leanAcross),
    lean: machine.leanAlong * RADIAN,
    leanAcross,
    frame: frame === "rolling" && machine.base !== "fixed" ? { mass: machine.base.frameMass } : null,
    horizon: horizonOf(request),
  };
}
