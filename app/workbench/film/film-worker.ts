/** Makes films and keep-out zones off the page's own thread. */
import { answer, type Question } from "./answer";

addEventListener("message", ({ data }: MessageEvent<Question>) => {
  answer(data, (part) => postMessage(part));
});
