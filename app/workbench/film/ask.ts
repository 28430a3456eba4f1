/**
 * Puts a question to a worker. Apart from answer.ts, which the worker itself loads: a worker whose files name it again
 * is never built to an end.
 */
import { startLongJob } from "@/app/_ui/long-job";
import { type Answer, answer, type Question } from "./answer";

const FILMING = {
  makeWorker: () => new Worker(new URL("./film-worker.ts", import.meta.url)),
  compute: answer,
  isLast: (part: Answer) => !("done" in part),
};

/** Returns what drops the question. */
export const ask = (question: Question, heard: (answer: Answer) => void): (() => void) =>
  startLongJob(FILMING, question, heard);
