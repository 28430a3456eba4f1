/** What the pages draw of a throw. World frame: x downrange, y up, metres; flat arrays x0, y0, x1, y1, … */

import { type Case, nominalThrow } from "./case";
import type { HazardRequest, Nominal, WorstThrow } from "./contracts";
import { type Air, Flight } from "./flight/flight";
import { LOOSE, LOOSE_ON_TROUGH } from "./swing/motion";
import type { Trace } from "./swing/trace";
import type { Candidate, Scan } from "./worst/scan";

/** Where everything is at one instant of the swing. */
export interface SwingFrame {
  time: number;
  tip: readonly [number, number];
  fulcrum: readonly [number, number];
  shortEnd: readonly [number, number];
  counterweight: readonly [number, number];
  projectile: readonly [number, number];
  /** Whether the sling is slack. */
  loose: boolean;
}

/** First impact of a projectile let go at one instant: the plot of distance against release instant. */
export interface CurvePoint {
  time: number;
  /** Degrees above the horizontal, downrange 0. */
  angle: number;
  /** m/s */
  speed: number;
  /** m from the firing point, downrange positive, uprange negative. */
  distance: number;
  /** Index into `Preview.branches`. */
  branch: number;
  /** Past the instant at which the sling's angle has fallen to −90°: a hang-up. */
  hangUp: boolean;
}

export interface SwingPicture {
  /** From the trigger to the end of the swing that `nominal` is part of, evenly in time. */
  frames: readonly SwingFrame[];
}

/** A path through the air, to the first impact. */
export interface FlightPath {
  of: "nominal" | "forward" | "backward";
  path: readonly number[];
}

/** The quick answer at the declared dimensions, while a slider moves. Never official. */
export interface Preview {
  nominal: Nominal | null;
  nominalReason: string | null;
  worst: {
    forward: WorstThrow;
    backward: WorstThrow;
    firstPass: { forward: WorstThrow; backward: WorstThrow };
  };
  ceiling: { speed: number; distance: number };
  branches: readonly string[];
  curve: readonly CurvePoint[];
  flights: readonly FlightPath[];
  /** Null for machines that do not swing. */
  swing: SwingPicture | null;
}

const FRAMES = 240;

/** The curve, the swing and the flights of a worked-out machine. */
export function pictureOf(
  request: HazardRequest,
  { releases, trace, airs }: Case,
  scan: Scan,
): Pick<Preview, "branches" | "curve" | "flights" | "swing"> {
  const { branches } = releases;
  const curve = releases.list.map((instant, i) => {
    const forward = scan.reach.forward[i];
    const backward = scan.reach.backward[i];
    return {
      time: instant.time,
      angle: (Math.atan2(instant.vy, instant.vx) * 180) / Math.PI,
      speed: Math.hypot(instant.vx, instant.vy),
      distance: forward >= backward ? forward : -backward,
      branch: instant.segment,
      hangUp: instant.hangUp,
    };
  });
  const flights: FlightPath[] = [];
  const nominalPath: number[] = [];
  if (nominalThrow(request, releases.nominal, nominalPath))
    flights.push({ of: "nominal", path: nominalPath });
  for (const way of ["forward", "backward"] as const) {
    const candidate = scan[way];
    if (candidate) flights.push({ of: way, path: pathOf(candidate, airs[way], way) });
  }
  return { branches, curve, flights, swing: trace && { frames: framesOf(trace) } };
}

/** The path of a worst throw in the air that made it. */
function pathOf({ instant }: Candidate, airs: readonly Air[], of: "forward" | "backward"): number[] {
  const flight = new Flight();
  let best: number[] = [];
  let farthest = Number.NEGATIVE_INFINITY;
  for (const air of airs) {
    const path: number[] = [];
    const { x } = flight.fly(air, instant.x, instant.y, instant.vx, instant.vy, 0, path);
    const reached = of === "forward" ? x : -x;
    if (reached > farthest) {
      farthest = reached;
      best = path;
    }
  }
  return best;
}

/** Frames evenly in time, the end stop taken as working. */
function framesOf(trace: Trace): SwingFrame[] {
  const steps: number[] = [];
  for (const { stop, from, to } of trace.segments) {
    if (stop !== "fails") for (let step = from; step < to; step++) steps.push(step);
  }
  const last = steps[steps.length - 1];
  const end = trace.begin(last) + trace.size(last);
  const frames: SwingFrame[] = [];
  const ball = new Float64Array(4);
  let i = 0;
  for (let frame = 0; frame <= FRAMES; frame++) {
    const time = (end * frame) / FRAMES;
    while (i < steps.length - 1 && trace.begin(steps[i]) + trace.size(steps[i]) < time) i++;
    const step = steps[i];
    const fraction = Math.min(1, Math.max(0, (time - trace.begin(step)) / trace.size(step)));
    const y = trace.stateAt(step, fraction);
    const phase = trace.phase(step);
    trace.motion.projectile(phase, y, ball);
    frames.push({
      time,
      ...trace.motion.points(phase, y),
      projectile: [ball[0], ball[1]],
      loose: phase === LOOSE || phase === LOOSE_ON_TROUGH,
    });
  }
  return frames;
}
