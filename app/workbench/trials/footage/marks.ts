/** What was tapped on a film: the axle and a known length once, tip and projectile on frame after frame. Pure. */
import type { trials } from "@/lib/throw";

export const POINTS = ["pivot", "from", "to", "tip", "projectile"] as const;
export type PointName = (typeof POINTS)[number];

export const POINT_WORDS: Record<PointName, { label: string; short: string }> = {
  pivot: { label: "Pivot of the arm", short: "P" },
  from: { label: "Known length, one end", short: "A" },
  to: { label: "Known length, other end", short: "B" },
  tip: { label: "Tip of the arm", short: "T" },
  projectile: { label: "Projectile", short: "O" },
};

export interface TappedFrame {
  /** s, as the file plays. */
  time: number;
  tip: trials.Pixel | null;
  projectile: trials.Pixel | null;
}

export interface Tapped {
  pivot: trials.Pixel | null;
  from: trials.Pixel | null;
  to: trials.Pixel | null;
  /** In the order of time. */
  frames: readonly TappedFrame[];
  /** The first frame in which the loop has slipped, s as the file plays. */
  freeFrom: number | null;
}

export const nothingTapped: Tapped = { pivot: null, from: null, to: null, frames: [], freeFrom: null };

/** Two times within it are of one frame: a film at 1000 frames a second has them 1 ms apart. */
const SAME = 4e-4;
export const sameFrame = (a: number, b: number) => Math.abs(a - b) < SAME;

export function tapped(before: Tapped, point: PointName, at: trials.Pixel, time: number): Tapped {
  if (point === "pivot" || point === "from" || point === "to") return { ...before, [point]: at };
  const found = before.frames.find((frame) => sameFrame(frame.time, time));
  const frame = { ...(found ?? { time, tip: null, projectile: null }), [point]: at };
  const others = before.frames.filter((each) => each !== found);
  return { ...before, frames: [...others, frame].sort((a, b) => a.time - b.time) };
}

export const withoutFrame = (before: Tapped, time: number): Tapped => ({
  ...before,
  frames: before.frames.filter((frame) => !sameFrame(frame.time, time)),
});

/** Free of the sling in the frame at this time. */
export const isFree = ({ freeFrom }: Tapped, time: number): boolean =>
  freeFrom !== null && time > freeFrom - SAME;

/** What is asked for after a point; `step` when the next frame is wanted first. */
export function nextPoint(
  after: Tapped,
  point: PointName,
  time: number,
): { point: PointName; step: boolean } {
  if (point === "pivot") return { point: "from", step: false };
  if (point === "from") return { point: "to", step: false };
  if (point === "to") return { point: "tip", step: false };
  if (point === "tip") return { point: "projectile", step: false };
  // After the release the tip says nothing more, but in the first free frame it tells the sling's angle.
  return { point: isFree(after, time) ? "projectile" : "tip", step: true };
}

export interface FilmTold {
  length: number;
  lengthUncertainty: number;
  towards: "right" | "left";
  /** Frames a second as the file plays, and as it was filmed. */
  plays: number;
  filmed: number;
  tap: number;
  level: number;
}

/** Of the clock of a camera: common practice, no source. */
const CLOCK = 0.002;

/** What the fit takes, or what is missing, in words. */
export function footageOf(
  { pivot, from, to, frames, freeFrom }: Tapped,
  told: FilmTold,
): { ok: true; footage: trials.Footage } | { ok: false; missing: string[] } {
  const missing: string[] = [];
  if (!from || !to) missing.push("Tap both ends of a known length.");
  if (freeFrom === null) missing.push("Say in which frame the loop has slipped for the first time.");
  const free = frames.filter(
    ({ time, projectile }) => projectile && freeFrom !== null && time > freeFrom - SAME,
  );
  if (free.length < 3)
    missing.push(`Tap the projectile on three frames or more after it has slipped: ${free.length} so far.`);
  if (missing.length > 0 || !from || !to || freeFrom === null) return { ok: false, missing };
  const slow = told.plays / told.filmed;
  return {
    ok: true,
    footage: {
      pivot,
      scale: { from, to, length: told.length, uncertainty: told.lengthUncertainty },
      towards: told.towards,
      frames: frames.map(({ time, tip, projectile }) => ({
        time: time * slow,
        tip,
        projectile,
        free: time > freeFrom - SAME,
      })),
      tap: told.tap,
      level: told.level,
      timing: CLOCK,
    },
  };
}
