/** From what was tapped and told of a film to what its release is worked out from. Pure. */
import { trials } from "@/lib/throw";
import { isFree, lastHeld, sameFrame, type Tapped } from "./marks";

/** How fast it was filmed: nobody said, as fast as it plays, in slow motion, or nobody knows. */
export type Pace = "unsaid" | "true" | "slow" | "unknown";

export interface FilmTold {
  length: number;
  lengthUncertainty: number;
  /** m; null without a second length. */
  length2: number | null;
  towards: "right" | "left";
  pace: Pace;
  /** Frames a second as the file plays, and as it was filmed. */
  plays: number;
  filmed: number;
  tap: number;
  level: number;
  distance: number | null;
  square: number;
  depth: number;
}

/** Of the clock of a camera: common practice, no source. */
const CLOCK = 0.002;
/** A file has the times of its frames by the millisecond. */
const TICK = 0.001 / Math.sqrt(12);
/** Of a frame's time that was counted, not told, as a share of the time between frames: common practice, no source. */
const COUNTED = 0.3;
/** s: a phone's sensor is read out within it, and within a frame: common practice, no source. */
const READOUT = 0.03;

/** What the fit takes, or what is missing, in words. */
export function footageOf(
  marks: Tapped,
  told: FilmTold,
  { width, height }: { width: number; height: number },
  windRead: boolean,
): { ok: true; footage: trials.Footage } | { ok: false; missing: string[] } {
  const { pivot, from, to, from2, to2, plumbTop, plumbFoot, frames, freeFrom } = marks;
  const missing: string[] = [];
  if (!from || !to) missing.push("Tap both ends of a known length.");
  if (freeFrom === null) missing.push("Say in which frame the loop has surely slipped.");
  const held = lastHeld(marks);
  if (held === null)
    missing.push(
      "Go back to the last frame in which the loop surely holds, and say so: the release lies between the two.",
    );
  if ((plumbTop === null) !== (plumbFoot === null))
    missing.push("Tap the other end of the plumb line too, or take off the one that is tapped.");
  if ((from2 === null) !== (to2 === null))
    missing.push("Tap the other end of the second length too, or take off the one that is tapped.");
  if (from2 && to2 && told.length2 === null)
    missing.push("Type how long the second length is, or take off its ends.");
  const free = frames.filter(({ time, projectile }) => projectile && isFree(marks, time));
  if (free.length < trials.FEWEST_POINTS)
    missing.push(
      `Tap the projectile on two frames or more after it has slipped, better on six: ${free.length} so far.`,
    );
  if (missing.length > 0 || !from || !to || freeFrom === null || held === null) return { ok: false, missing };

  const known = { uncertainty: told.lengthUncertainty };
  const second =
    from2 && to2 && told.length2 !== null ? [{ ...known, from: from2, to: to2, length: told.length2 }] : [];
  // By the fall the times may run at any pace; else they are brought to true ones.
  const byFall = told.pace === "unknown";
  const slow = told.pace === "slow" ? told.plays / told.filmed : 1;
  const counted = free.some(({ timed }) => !timed);
  const filmed = told.pace === "slow" ? told.filmed : told.plays;
  return {
    ok: true,
    footage: {
      pivot,
      lengths: [{ ...known, from, to, length: told.length }, ...second],
      plumb: plumbTop && plumbFoot ? [plumbTop, plumbFoot] : null,
      towards: told.towards,
      frames: frames.map(({ time, tip, projectile }) => ({ time: time * slow, tip, projectile })),
      held: timeOf(marks, held) * slow,
      free: timeOf(marks, freeFrom) * slow,
      tap: told.tap,
      clock: slow * (counted ? COUNTED / told.plays : TICK),
      pace: byFall ? { by: "fall" } : { by: "told", timing: CLOCK },
      camera: {
        width,
        height,
        distance: told.distance,
        square: told.square,
        level: told.level,
        depth: told.depth,
        readout: byFall ? READOUT : Math.min(READOUT, 1 / filmed),
      },
      windRead,
    },
  };
}

/** To the last bit that of the frame as it was tapped. */
const timeOf = ({ frames }: Tapped, time: number) =>
  frames.find((frame) => sameFrame(frame.time, time))?.time ?? time;
