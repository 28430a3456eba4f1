/** Works out the yard's hazard sheet off the page's own thread. */
import { answerTo, type ZoneQuestion } from "./question";

addEventListener("message", ({ data }: MessageEvent<ZoneQuestion>) => {
  let last = 0;
  const onProgress = (done: number) => {
    // A message for every hundredth is enough to draw.
    if (Math.abs(done - last) < 0.01) return;
    last = done;
    postMessage({ done });
  };
  answerTo(data, onProgress).then(
    (answer) => postMessage({ answer }),
    (error: unknown) => postMessage({ failure: error instanceof Error ? error.message : String(error) }),
  );
});
