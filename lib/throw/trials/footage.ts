/** What is told of a film of a throw and tapped on its frames, and what comes of it. */
import type { FilmFall } from "./film-fall";
import type { Camera, KnownLength, Pixel } from "./film-plane";
import type { Told } from "./throw-fit";

export interface FrameMarks {
  /** s, in true time as far as that is told. */
  time: number;
  tip: Pixel | null;
  projectile: Pixel | null;
}

export interface Footage {
  /** The arm's axle; without it no angle of the sling is told. */
  pivot: Pixel | null;
  /** One or more; places are told from the first end of the first where there is no pivot. */
  lengths: readonly KnownLength[];
  /** Two points of a line that hangs straight down. */
  plumb: readonly [Pixel, Pixel] | null;
  /** Where the machine throws to in the picture. */
  towards: "right" | "left";
  /** In the order of time. */
  frames: readonly FrameMarks[];
  /** s: the last frame in which the loop surely holds; null when nobody said. */
  held: number | null;
  /** s: the first frame in which it has surely slipped. */
  free: number;
  /** How closely a point is tapped: standard deviation in each direction, picture elements. */
  tap: number;
  /** Of one frame's time, standard, s. */
  clock: number;
  /** As told, good to `timing` as a share, standard; or found from the fall: then `time` may run at any pace. */
  pace: { by: "told"; timing: number } | { by: "fall" };
  camera: Camera;
  /** The request's wind was read at the throw: it holds within a third, at least 1 m/s; else within `UNREAD_WIND`. */
  windRead: boolean;
}

export const FOOTAGE_SOURCES = [
  "taps",
  "clock",
  "scale",
  "level",
  "square",
  "shutter",
  "timing",
  "drag",
  "wind",
  "instant",
] as const;
export type FootageSource = (typeof FOOTAGE_SOURCES)[number];

export type FootageRefusal = "scale" | "plumb" | "few-points" | "held" | "order" | "pace";

export type FootageResult =
  | { ok: false; why: FootageRefusal }
  | {
      ok: true;
      /** m/s. */
      speed: Told;
      /** Degrees above the horizontal, downrange 0. */
      launchAngle: Told;
      /** Student's factors in the two. */
      coverage: { speed: number; angle: number };
      /** It leaves backwards: perhaps the machine throws to the other side of the picture. */
      backwards: boolean;
      /** Between the sling and the outward line of the arm, degrees, as a machine's release angle; null where pivot, tip or
       * projectile are missing on either side of the release. */
      slingAngle: Told | null;
      /** Where the projectile leaves, m from the pivot. */
      at: { ahead: number; up: number };
      /** s: the frames between which the loop slipped. */
      between: readonly [number, number];
      points: number;
      /** What each source alone makes of speed and direction, standard, m/s and degrees. */
      budget: Record<FootageSource, { speed: number; angle: number }>;
      /** Of the points about the fit, as a multiple of what taps and clock explain; null below three points. */
      roughness: number | null;
      fall: FilmFall;
      /** How many times slower than its times the film plays by the fall: what was taken where the pace comes from it, what
       * was found where it is wrong; else null. */
      slower: Told | null;
      /** What was taken of the wind, m/s along the throw at the height of the machine, ±. */
      wind: { along: number; within: number };
      /** How far the known lengths are from each other's scale, as a share; null for one, or where they agree. */
      lengthsOff: number | null;
    };

export const FEWEST_POINTS = 2;
/** ± m/s about what is taken where nobody read the wind. */
export const UNREAD_WIND = 5;
