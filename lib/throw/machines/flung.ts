/** What the kinds that follow from formulas share: instants without a sling, and how fast the flight may start. */
import type { Instant } from "../release";

/** An instant of a machine that has no sling. */
export function flung(at: Pick<Instant, "x" | "y" | "vx" | "vy" | "fraction"> & Partial<Instant>): Instant {
  return {
    time: 0,
    step: 0,
    segment: 0,
    slingAngle: 0,
    hangUp: false,
    afterSlack: false,
    stop: "none",
    ...at,
  };
}

/** m/s. The drag of a flight takes no account of the speed of sound: far beyond it nothing here holds. */
export const FASTEST = 1000;

/** What a team is told that declares more. */
export const tooFast = (speed: number, whatToDo: string): string =>
  `The projectile would leave at up to ${Math.round(speed)} m/s; nothing beyond ${FASTEST} m/s is computed. ${whatToDo}`;
