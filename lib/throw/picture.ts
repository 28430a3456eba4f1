/** What the pages draw of a throw. World frame: x downrange, y up, metres; flat arrays x0, y0, x1, y1, … */
import type { Nominal, WorstThrow } from "./contracts";

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
  /** Paths through the air, to the first impact. */
  flights: readonly { of: "nominal" | "forward" | "backward"; path: readonly number[] }[];
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
  /** Null for machines of which only the release speed is known. */
  swing: SwingPicture | null;
}
