/** Runs the quick preview off the page's own thread, so that typing never waits for physics. */
import { type HazardRequest, preview } from "@/lib/throw";

addEventListener("message", (event: MessageEvent<HazardRequest>) => {
  try {
    postMessage({ preview: preview(event.data) });
  } catch (error) {
    postMessage({ failure: error instanceof Error ? error.message : String(error) });
  }
});
