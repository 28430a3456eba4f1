/** Answers the tuning page off its own thread, so that a slider never waits for physics. */
import { answerTo, type Question } from "./questions";

addEventListener("message", (event: MessageEvent<Question>) => {
  let last = 0;
  try {
    const answer = answerTo(event.data, (progress) => {
      // A message for every hundredth is enough to draw.
      if (progress - last < 0.01) return;
      last = progress;
      postMessage({ progress });
    });
    postMessage({ answer });
  } catch (error) {
    postMessage({ failure: error instanceof Error ? error.message : String(error) });
  }
});
