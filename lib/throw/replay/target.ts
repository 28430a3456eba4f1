/** Where something was found, in the plane of the ground: x along the bearing, z to the right of it, m. */
import type { Landing, ReplayRequest } from "../contracts/replay";

export const RADIAN = Math.PI / 180;

export interface Target {
  x: number;
  z: number;
  /** m from the firing point. */
  distance: number;
  /** rad clockwise from the bearing, −π to π. */
  azimuth: number;
  uncertainty: number;
  /** Whether it is where something came to rest, not its first impact. */
  rest: boolean;
}

/** @throws TypeError for a landing that names neither pair of numbers; the contract refuses it before */
export function targetOf({ landing, place }: Pick<ReplayRequest, "landing" | "place">): Target {
  const [x, z] = groundOf(landing);
  return {
    x,
    z,
    distance: Math.hypot(x, z),
    azimuth: Math.atan2(z, x),
    uncertainty: landing.uncertainty,
    rest: place === "rest",
  };
}

function groundOf({ distance, direction, downrange, aside }: Landing): [number, number] {
  if (downrange !== undefined && aside !== undefined) return [downrange, aside];
  if (distance === undefined || direction === undefined) throw new TypeError("a landing without a place");
  return [distance * Math.cos(direction * RADIAN), distance * Math.sin(direction * RADIAN)];
}

/** The same angle between −π and π. */
export const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
