/** Releases of the kinds that follow from formulas, as samples of a run. Written from the text alone. */
import type { HazardRequest } from "@/lib/throw";
import type { Machine } from "./exact";
import { type Run, STRIDE } from "./swing";

/** Samples without any neighbours to interpolate between. */
function runOf(launches: number[][]): Run {
  const samples = new Float64Array(launches.length * STRIDE);
  launches.forEach(([x, y, vx, vy], i) => {
    samples.set([0, x, y, vx, vy, 0, 0], i * STRIDE);
  });
  return {
    samples,
    count: launches.length,
    starts: launches.map((_, i) => i),
    past: new Uint8Array(launches.length),
    horizon: 0,
  };
}

export function formulaRun(_machine: Machine, _mass: number, _request: HazardRequest): Run | null {
  void runOf;
  return null;
}
