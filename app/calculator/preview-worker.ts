/** Runs the quick preview off the page's own thread, so that typing never waits for physics. */
import { type HazardRequest, preview } from "@/lib/throw";

addEventListener("message", (event: MessageEvent<{ id: number; request: HazardRequest }>) => {
  const { id, request } = event.data;
  try {
    postMessage({ id, preview: preview(request) });
  } catch (error) {
    postMessage({ id, failure: error instanceof Error ? error.message : String(error) });
  }
});
