"use client";
/** Asking the engine: the newest question while something moves, or one long search that can be stopped. */
import { useCallback, useEffect, useRef, useState } from "react";
import { type Reply, replyTo } from "@/app/_ui/answer-in-worker";
import { startLongJob } from "@/app/_ui/long-job";
import { type Answers, answerTo, type Question } from "./questions";

const onThisThread = (question: Question): Reply<unknown> => replyTo(question, answerTo);

const makeWorker = () => new Worker(new URL("./tuning-worker.ts", import.meta.url));

/** Null where the browser has no workers. */
function startWorker(): Worker | null {
  try {
    return makeWorker();
  } catch {
    return null;
  }
}

interface Job {
  ask: Question["ask"];
  /** The question, by value. */
  key: string;
  told: (reply: Reply<unknown>) => void;
}

/** One worker, started when it is first asked. It works on one question; of those that wait only the newest of each sort. */
class Asker {
  private worker: Worker | null | undefined;
  private asked: Job | null = null;
  private readonly waiting = new Map<Question["ask"], Job>();

  put(job: Job): void {
    if (this.worker === undefined) this.start();
    if (!this.worker) job.told(onThisThread(JSON.parse(job.key)));
    else if (this.asked) this.waiting.set(job.ask, job);
    else {
      this.asked = job;
      this.worker.postMessage(JSON.parse(job.key));
    }
  }

  close(): void {
    this.worker?.terminate();
    this.worker = undefined;
    this.asked = null;
    this.waiting.clear();
  }

  private start(): void {
    const worker = startWorker();
    this.worker = worker;
    if (!worker) return;
    worker.onmessage = ({ data }: MessageEvent<Reply<unknown> | { progress: number }>) => {
      if ("progress" in data) return;
      const done = this.asked;
      this.asked = null;
      this.next();
      done?.told(data);
    };
    // A worker that cannot run (an old browser, a strict proxy) leaves everything to the page's own thread.
    worker.onerror = () => {
      this.worker = null;
      const left = this.asked;
      this.asked = null;
      if (left && !this.waiting.has(left.ask)) this.put(left);
      while (this.waiting.size > 0) this.next();
    };
  }

  private next(): void {
    const [first] = this.waiting.values();
    if (!first) return;
    this.waiting.delete(first.ask);
    this.put(first);
  }
}

/** A worker of this component's own. */
export function useAsker(): Asker {
  const [asker] = useState(() => new Asker());
  useEffect(() => () => asker.close(), [asker]);
  return asker;
}
export type { Asker };

export interface Answered<Q extends Question> {
  /** The last answer, and to what; kept while a newer question waits. */
  answer: Answers[Q["ask"]] | null;
  question: Q | null;
  failure: string | null;
  /** Whether the answer is of an earlier question. */
  stale: boolean;
}

/**
 * The answer to the newest question.
 * @param pause ms that a question must stand unchanged before it is asked
 */
export function useNewest<Q extends Question>(asker: Asker, question: Q, pause = 0): Answered<Q> {
  const [answered, setAnswered] = useState<Answered<Q>>({
    answer: null,
    question: null,
    failure: null,
    stale: true,
  });
  // By value: what changes no number asks nothing anew.
  const key = JSON.stringify(question);
  const { ask } = question;
  const newest = useRef("");

  useEffect(() => {
    newest.current = key;
    setAnswered((before) => (before.stale ? before : { ...before, stale: true }));
    const told = (reply: Reply<unknown>) => {
      // While a slider moves, an answer to what has been asked since is still newer than what is shown.
      const stale = newest.current !== key;
      setAnswered((before) =>
        "answer" in reply
          ? { answer: reply.answer as Answers[Q["ask"]], question: JSON.parse(key), failure: null, stale }
          : { ...before, failure: reply.failure, stale },
      );
    };
    if (pause === 0) {
      asker.put({ ask, key, told });
      return;
    }
    const timer = setTimeout(() => asker.put({ ask, key, told }), pause);
    return () => clearTimeout(timer);
  }, [asker, ask, key, pause]);

  return answered;
}

type Search = Extract<Question, { ask: "tune" }>;

export type Searching =
  | { state: "none" }
  | { state: "running"; progress: number }
  | { state: "stopped" }
  | { state: "done"; question: Search; result: Answers["tune"] }
  | { state: "failed"; failure: string };

type Part = Reply<unknown> | { progress: number };
const SEARCH = {
  makeWorker,
  compute: (question: Search, heard: (part: Part) => void) => heard(onThisThread(question)),
  isLast: (part: Part) => !("progress" in part),
};

export function useSearch() {
  const [searching, setSearching] = useState<Searching>({ state: "none" });
  const drop = useRef(() => {});
  useEffect(() => () => drop.current(), []);

  const start = useCallback((question: Search) => {
    drop.current();
    setSearching({ state: "running", progress: 0 });
    drop.current = startLongJob(SEARCH, question, (part) =>
      setSearching(
        "progress" in part
          ? { state: "running", progress: part.progress }
          : "answer" in part
            ? { state: "done", question, result: part.answer as Answers["tune"] }
            : { state: "failed", failure: part.failure },
      ),
    );
  }, []);
  const stop = useCallback(() => {
    drop.current();
    setSearching({ state: "stopped" });
  }, []);
  return { searching, start, stop };
}
