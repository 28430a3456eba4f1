/** A worker thread that computes hazard sheets, one at a time. Started by hazard-queue.ts through hazard-worker.mjs. */
import { parentPort } from "node:worker_threads";
import { type HazardRequest, hazardSheet } from "../throw";

parentPort?.on("message", ({ id, request }: { id: number; request: HazardRequest }) => {
  try {
    parentPort?.postMessage({ id, sheet: hazardSheet(request) });
  } catch (error) {
    const { name, message, field } = error as Error & { field?: string };
    parentPort?.postMessage({ id, error: { name, message, field } });
  }
});
