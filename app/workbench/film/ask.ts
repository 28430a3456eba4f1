/**
 * Puts a question to a worker. Apart from answer.ts, which the worker itself loads: a worker whose files name it again
 * is never built to an end.
 */
import { type Answer, answer, type Question } from "./answer";

/**
 * Asks in a worker of its own; one that cannot run (an old browser, a strict proxy) leaves the question to the page's
 * own thread. Returns what drops the question.
 */
export function ask(question: Question, heard: (answer: Answer) => void): () => void {
  let open = true;
  const say = (part: Answer) => open && heard(part);
  let worker: Worker | null = null;
  const here = () => setTimeout(() => open && answer(question, say));
  try {
    worker = new Worker(new URL("./film-worker.ts", import.meta.url));
    worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => {
      if (!("done" in data)) worker?.terminate();
      say(data);
    });
    worker.addEventListener("error", here);
    worker.postMessage(question);
  } catch {
    here();
  }
  return () => {
    open = false;
    worker?.terminate();
  };
}
