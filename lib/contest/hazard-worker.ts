/**
 * A worker thread that computes hazard sheets, landing points and accident replays, one job at a time. Started by hazard-queue.ts through
 * hazard-worker.mjs.
 */
import { parentPort } from "node:worker_threads";
import {
  calibrate,
  dispersionChunk,
  type HazardRequest,
  type HazardSheet,
  hazardSheet,
  type Landings,
  type MeasuredThrow,
  type ReplayRequest,
  replay,
  type Spread,
} from "../throw";
import { type MachineToPlace, type PlacePoint, place, type ZoneFeature } from "../zones";

export type Work =
  | { kind: "sheet"; request: HazardRequest }
  | { kind: "dispersion"; request: HazardRequest; spread: Spread; from: number; to: number }
  | {
      kind: "placing";
      machines: readonly MachineToPlace[];
      points: readonly PlacePoint[];
      features: readonly ZoneFeature[];
    }
  | {
      kind: "calibration";
      request: HazardRequest;
      throws: readonly MeasuredThrow[];
      worstForward: number;
    }
  | { kind: "replay"; asked: ReplayRequest; worst: HazardSheet["worst"] };

export type Answer =
  | { id: number; result: unknown }
  | { id: number; progress: number }
  | { id: number; error: { name: string; message: string; field?: string | undefined } };

/** Progress is told in steps of at least this share. */
const STEP = 0.02;

const answer = (message: Answer) => parentPort?.postMessage(message);

parentPort?.on("message", ({ id, ...work }: { id: number } & Work) => {
  try {
    answer({ id, result: done(id, work) });
  } catch (error) {
    const { name, message, field } = error as Error & { field?: string };
    answer({ id, error: { name, message, field } });
  }
});

function done(id: number, work: Work): unknown {
  switch (work.kind) {
    case "sheet":
      return sheet(id, work.request);
    case "dispersion":
      return landings(work);
    case "placing":
      return place(work.machines, work.points, work.features);
    case "calibration":
      return calibrate(work.request, work.throws, work.worstForward);
    case "replay":
      return replay(work.asked, work.worst);
  }
}

function sheet(id: number, request: HazardRequest) {
  let told = 0;
  return hazardSheet(request, (done) => {
    if (done < told + STEP) return;
    told = done;
    answer({ id, progress: done });
  });
}

function landings({ request, spread, from, to }: Work & { kind: "dispersion" }): Landings {
  return dispersionChunk(request, spread, from, to);
}
