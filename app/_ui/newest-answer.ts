"use client";
/** Answers to questions that change while people type: the newest question wins, in a worker where there is one. */
import { useEffect, useRef, useState } from "react";
import { type Reply, replyTo } from "./answer-in-worker";

export interface Newest<Question, Answer> {
  /** The last answer; kept, and marked stale, while there is no complete question. */
  answer: Answer | null;
  /** What it answers. */
  question: Question | null;
  stale: boolean;
  /** Why the newest question has no answer. */
  failure: string | null;
}

type Ask<Question, Answer> = (question: Question, answered: (reply: Reply<Answer>) => void) => void;

/**
 * One question in the worker at a time; of those that wait only the newest is kept. A worker that cannot run
 * (an old browser, a strict proxy) leaves its question, and all that follow, to the page's own thread.
 */
function inWorker<Question, Answer>(worker: Worker, otherwise: Ask<Question, Answer>): Ask<Question, Answer> {
  let asked: Parameters<Ask<Question, Answer>> | null = null;
  let waiting: Parameters<Ask<Question, Answer>> | null = null;
  let broken = false;
  const send: Ask<Question, Answer> = (question, answered) => {
    if (broken) otherwise(question, answered);
    else if (asked) waiting = [question, answered];
    else {
      asked = [question, answered];
      worker.postMessage(question);
    }
  };
  worker.addEventListener("message", (event: MessageEvent<Reply<Answer>>) => {
    const done = asked;
    const next = waiting;
    asked = null;
    waiting = null;
    if (next) send(...next);
    done?.[1](event.data);
  });
  worker.addEventListener("error", () => {
    broken = true;
    const left = waiting ?? asked;
    if (left) otherwise(...left);
  });
  return send;
}

/**
 * @param makeWorker and `compute` stay the same from call to call: functions of their module
 * @param pause in typing before the next question, ms
 */
export function useNewestAnswer<Question, Answer>(
  question: Question | null,
  makeWorker: () => Worker,
  compute: (question: Question) => Answer,
  pause: number,
): Newest<Question, Answer> {
  const [newest, setNewest] = useState<Newest<Question, Answer>>({
    answer: null,
    question: null,
    stale: true,
    failure: null,
  });
  const ask = useRef<Ask<Question, Answer> | null>(null);
  const newestKey = useRef("");
  // By value: a keystroke that changes no number asks nothing anew.
  const key = question ? JSON.stringify(question) : "";

  useEffect(() => {
    const here: Ask<Question, Answer> = (asked, answered) => answered(replyTo(asked, compute));
    let worker: Worker | null = null;
    ask.current = here;
    try {
      worker = makeWorker();
      ask.current = inWorker(worker, here);
    } catch {
      // No workers in this browser: the page computes by itself.
    }
    return () => worker?.terminate();
  }, [makeWorker, compute]);

  useEffect(() => {
    newestKey.current = key;
    setNewest((before) => (before.stale ? before : { ...before, stale: true }));
    if (!key) return;
    const asked: Question = JSON.parse(key);
    const timer = setTimeout(() => {
      ask.current?.(asked, (reply) => {
        if (newestKey.current !== key) return;
        setNewest((before) =>
          "answer" in reply
            ? { answer: reply.answer, question: asked, stale: false, failure: null }
            : { ...before, stale: true, failure: reply.failure },
        );
      });
    }, pause);
    return () => clearTimeout(timer);
  }, [key, pause]);

  return newest;
}
