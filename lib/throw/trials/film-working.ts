/** One working-out of a film: the picture's plane, the points in it, the throw through them, with any input moved. */
import { nominalAir } from "../case";
import type { HazardRequest } from "../contracts/request";
import { windGrowthAt } from "../flight/flight";
import { type Look, type Pixel, type Plane, planeOf } from "./film-plane";
import { type Footage, UNREAD_WIND } from "./footage";
import { fitThrow, type Point, type ThrowFit } from "./throw-fit";

export type FilmRequest = Pick<HazardRequest, "projectile" | "air" | "site" | "terrain" | "machine">;

export interface Moved extends Look {
  time: number;
  /** s */
  later: number;
  readout: number;
  drag: number | null;
  lift: number;
  wind: number;
  /** How many times slower than its times the film plays; null finds it from the fall. */
  slow: number | null;
}

export interface Worked {
  plane: Plane;
  fit: ThrowFit;
  /** Null where the points do not fall, so that no pace follows. */
  slow: number | null;
}

export interface Working {
  still: Moved;
  gravity: number;
  windWithin: number;
  work: (change: Partial<Moved>) => Worked;
}

/** @param flown free frames with a projectile, two or more; @param release s */
export function workingOf(
  { lengths, tap, plumb, towards, camera, pace, windRead }: Footage,
  flown: readonly { time: number; projectile: Pixel }[],
  release: number,
  request: FilmRequest,
): Working {
  const air = nominalAir(request as HazardRequest);
  const wind = air.windX * windGrowthAt(air, heightOf(request));
  const still: Moved = {
    yaw: 0,
    pitch: 0,
    turn: 0,
    scale: 1,
    time: 1,
    later: 0,
    readout: 0,
    drag: air.drag,
    lift: 0,
    wind,
    slow: pace.by === "told" ? 1 : null,
  };
  // A picture that stands upright is of a camera on its side, whose rows stand upright too.
  const upright = camera.height > camera.width;
  const rowOf = ([x, y]: Pixel) => (upright ? x / camera.width : y / camera.height) - 0.5;
  const work = (change: Partial<Moved>): Worked => {
    const moved = { ...still, ...change };
    const plane = planeOf(camera, lengths, tap, plumb, towards, moved);
    const flies = { ...air, drag: moved.drag, lift: moved.lift, windX: moved.wind };
    const places = flown.map(({ projectile }) => plane.at(projectile));
    const fitAt = (slow: number) =>
      fitThrow(
        flown.map(({ time, projectile }, i): Point => {
          const t = (moved.time * (time - release)) / slow + moved.readout * rowOf(projectile) - moved.later;
          return { t, ...(places[i] as { x: number; y: number }) };
        }),
        flies,
      );
    if (moved.slow !== null) return { plane, fit: fitAt(moved.slow), slow: moved.slow };
    let slow = 1;
    let fit = fitAt(slow);
    for (let round = 0; round < 8; round++) {
      if (!(fit.fall && fit.fall.down > 0)) return { plane, fit, slow: null };
      const more = Math.sqrt(air.gravity / fit.fall.down);
      if (Math.abs(more - 1) < 1e-6) break;
      slow *= more;
      fit = fitAt(slow);
    }
    return { plane, fit, slow };
  };
  return {
    still,
    gravity: air.gravity,
    windWithin: windRead ? Math.max(1, Math.abs(wind) / 3) : UNREAD_WIND,
    work,
  };
}

/** About where it is let go, m above the ground: the wind there is known far worse than its growth. */
function heightOf({ machine }: FilmRequest): number {
  const { pivotHeight, launchHeight } = machine as { pivotHeight?: number; launchHeight?: number };
  return Math.max(1, pivotHeight ?? launchHeight ?? 5);
}
