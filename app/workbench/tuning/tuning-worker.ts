/** Answers the tuning page off its own thread, so that a slider never waits for physics. */
import { replyTo } from "@/app/_ui/answer-in-worker";
import { answerTo, type Question } from "./questions";

addEventListener("message", (event: MessageEvent<Question>) => {
  let last = 0;
  const onProgress = (progress: number) => {
    // A message for every hundredth is enough to draw.
    if (progress - last < 0.01) return;
    last = progress;
    postMessage({ progress });
  };
  postMessage(replyTo(event.data, (question) => answerTo(question, onProgress)));
});
