/** What arrives at the end stop, and what goes on driving into it. */
import type { SwingSetup } from "../swing/carrier";
import type { Tear } from "./tears";

export interface Arrival {
  /** Kinetic energy of all that moves, J. */
  energy: number;
  /** When the sling lets go or tears, s from the trigger. */
  at: number;
  /** When the stop is met, s from the trigger. */
  arrives: number;
  /** Of the arm, rad/s. */
  rate: number;
  /** Of the carriage along its track, m/s; null where the arm itself is stopped. */
  speed: number | null;
}

export interface MachineStop {
  of: "carriage" | "arm";
  /** What weight and springs go on pushing with at the stop: N along the track, or N·m on the arm. */
  drive: number;
  /** What moves there as it feels to the stop: kg of a carriage, or kg·m² of an arm about its pivot. */
  inertia: number;
}

export function arrivalOf({ carrier }: SwingSetup, { energy, at, arrives, rate }: Tear): Arrival {
  const { endStop } = carrier;
  const speed = endStop?.of === "carriage" ? leverOf(carrier, endStop.at) * Math.abs(rate) : null;
  return { energy, at, arrives, rate: Math.abs(rate), speed };
}

/** Null for a machine without a stop, or one that nothing reaches. */
export function machineStopOf(setup: SwingSetup, arrival: Arrival | undefined): MachineStop | null {
  const drive = driveAtStop(setup);
  if (!drive || !arrival) return null;
  const { energy, rate, speed } = arrival;
  return { ...drive, inertia: (2 * energy) / (speed ?? rate) ** 2 };
}

/** Null for a machine without a stop. */
export function driveAtStop({
  carrier,
  gravity,
  lean,
}: SwingSetup): Pick<MachineStop, "of" | "drive"> | null {
  const { endStop, shortArm, moment, levelMoment, spring } = carrier;
  if (!endStop) return null;
  const { of } = endStop;
  const phi = of === "arm" ? endStop.at : Math.acos(endStop.at / shortArm);
  // What the energy of position gives for each radian that the arm still falls.
  const torque =
    gravity * (levelMoment * Math.sin(lean) * Math.sin(phi) - moment * Math.cos(lean) * Math.cos(phi)) +
    (spring?.preload ?? 0);
  return { of, drive: of === "arm" ? torque : torque / leverOf(carrier, endStop.at) };
}

/** What drives a carriage on along its stop, N; how far from the pivot an arm is caught is not declared. */
export const driveAlong = (stop: Pick<MachineStop, "of" | "drive"> | null): number =>
  stop?.of === "carriage" ? Math.max(0, stop.drive) : 0;

/** Way of the carriage for a radian of the arm, m. */
const leverOf = ({ shortArm }: SwingSetup["carrier"], at: number) =>
  Math.sqrt(Math.max(0, shortArm ** 2 - at ** 2));
