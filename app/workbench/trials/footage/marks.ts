/** What was tapped on a film: the axle, known lengths and a plumb line once, tip and projectile on frame after frame. Pure. */
import type { trials } from "@/lib/throw";

export const STILL_POINTS = ["pivot", "from", "to", "plumbTop", "plumbFoot", "from2", "to2"] as const;
export type StillPoint = (typeof STILL_POINTS)[number];
export const POINTS = [
  "pivot",
  "from",
  "to",
  "tip",
  "projectile",
  "plumbTop",
  "plumbFoot",
  "from2",
  "to2",
] as const satisfies readonly (StillPoint | "tip" | "projectile")[];
export type PointName = (typeof POINTS)[number];

export const POINT_WORDS: Record<PointName, { label: string; short: string }> = {
  pivot: { label: "Pivot of the arm", short: "P" },
  from: { label: "Known length, one end", short: "A" },
  to: { label: "Known length, other end", short: "B" },
  tip: { label: "Tip of the arm", short: "T" },
  projectile: { label: "Projectile", short: "O" },
  plumbTop: { label: "Plumb line, top (if there is one)", short: "V" },
  plumbFoot: { label: "Plumb line, foot", short: "W" },
  from2: { label: "Second length, one end (if there is one)", short: "C" },
  to2: { label: "Second length, other end", short: "D" },
};

export interface TappedFrame {
  /** s, as the file plays. */
  time: number;
  /** The browser told it; else it was counted at the rate of the file. */
  timed: boolean;
  tip: trials.Pixel | null;
  projectile: trials.Pixel | null;
}

export interface Tapped extends Record<StillPoint, trials.Pixel | null> {
  /** In the order of time. */
  frames: readonly TappedFrame[];
  /** The last frame in which the loop surely holds, and the first in which it has surely slipped, s as the file plays. */
  heldUntil: number | null;
  freeFrom: number | null;
}

export const nothingTapped: Tapped = {
  pivot: null,
  from: null,
  to: null,
  plumbTop: null,
  plumbFoot: null,
  from2: null,
  to2: null,
  frames: [],
  heldUntil: null,
  freeFrom: null,
};

/** Two times within it are of one frame: a film at 1000 frames a second has them 1 ms apart. */
const SAME = 4e-4;
export const sameFrame = (a: number | null, b: number) => a !== null && Math.abs(a - b) < SAME;

const isStill = (point: PointName): point is StillPoint =>
  (STILL_POINTS as readonly PointName[]).includes(point);

export function tapped(
  before: Tapped,
  point: PointName,
  at: trials.Pixel,
  { time, timed }: { time: number; timed: boolean },
): Tapped {
  if (isStill(point)) return { ...before, [point]: at };
  const found = before.frames.find((frame) => sameFrame(frame.time, time));
  const frame = { ...(found ?? { time, timed, tip: null, projectile: null }), [point]: at };
  const others = before.frames.filter((each) => each !== found);
  return { ...before, frames: [...others, frame].sort((a, b) => a.time - b.time) };
}

export const withoutFrame = (before: Tapped, time: number): Tapped => ({
  ...before,
  frames: before.frames.filter((frame) => !sameFrame(frame.time, time)),
});

/** Whether this point stands on the picture already, in this frame where it moves. */
export const isMarked = (marks: Tapped, point: PointName, time: number): boolean =>
  isStill(point)
    ? marks[point] !== null
    : marks.frames.some((frame) => sameFrame(frame.time, time) && frame[point] !== null);

export function unmarked(marks: Tapped, point: PointName, time: number): Tapped {
  if (isStill(point)) return { ...marks, [point]: null };
  const frames = marks.frames.map((frame) =>
    sameFrame(frame.time, time) ? { ...frame, [point]: null } : frame,
  );
  return { ...marks, frames: frames.filter(({ tip, projectile }) => tip || projectile) };
}

/** Free of the sling in the frame at this time. */
export const isFree = ({ freeFrom }: Tapped, time: number): boolean =>
  freeFrom !== null && time > freeFrom - SAME;

/**
 * The last frame that surely holds: the one that was said, else the last that was tapped before the loop had slipped, for who
 * taps there sees the projectile in the sling.
 */
export function lastHeld({ heldUntil, freeFrom, frames }: Tapped): number | null {
  if (heldUntil !== null) return heldUntil;
  const before = frames.filter(({ time }) => freeFrom !== null && time < freeFrom - SAME);
  return before.at(-1)?.time ?? null;
}

/** What the frame at this time is known to be. */
export function stateOf(marks: Tapped, time: number): "held" | "free" | "between" | null {
  if (isFree(marks, time)) return "free";
  const held = lastHeld(marks);
  if (held !== null && time < held + SAME) return "held";
  return marks.freeFrom !== null && held !== null ? "between" : null;
}

export const FRAME_STATES = {
  held: ", holds",
  free: ", free",
  between: ", either",
  unsaid: "",
} as const;

/** What is asked for after a point; `step` when the next frame is wanted first. */
export function nextPoint(
  after: Tapped,
  point: PointName,
  time: number,
): { point: PointName; step: boolean } {
  const next: Partial<Record<PointName, PointName>> = {
    pivot: "from",
    from: "to",
    to: "tip",
    tip: "projectile",
    plumbTop: "plumbFoot",
    plumbFoot: "tip",
    from2: "to2",
    to2: "tip",
  };
  const then = next[point];
  if (then) return { point: then, step: false };
  // After the release the tip says nothing more, but in the first free frame it tells the sling's angle.
  return { point: isFree(after, time) ? "projectile" : "tip", step: true };
}
