"use client";
/** Asking the engine: the newest question while something moves, or one long search that can be stopped. */
import { useCallback, useEffect, useRef, useState } from "react";
import { type Answers, answerTo, type Question } from "./questions";

export type Reply<A> = { answer: A } | { failure: string };

const failureOf = (error: unknown) => (error instanceof Error ? error.message : String(error));

function onThisThread(question: Question): Reply<unknown> {
  try {
    return { answer: answerTo(question) };
  } catch (error) {
    return { failure: failureOf(error) };
  }
}

/** Null where the browser has no workers. */
function startWorker(): Worker | null {
  try {
    return new Worker(new URL("./tuning-worker.ts", import.meta.url));
  } catch {
    return null;
  }
}

export interface Answered<Q extends Question> {
  /** The last answer, and to what; kept while a newer question waits. */
  answer: Answers[Q["ask"]] | null;
  question: Q | null;
  failure: string | null;
  /** Whether the answer is of an earlier question. */
  stale: boolean;
}

/**
 * The answer to the newest question. One is worked on at a time; of those that wait only the newest is kept.
 * @param pause ms that a question must stand unchanged before it is asked
 */
export function useNewest<Q extends Question>(question: Q | null, pause = 0): Answered<Q> {
  const [answered, setAnswered] = useState<Answered<Q>>({
    answer: null,
    question: null,
    failure: null,
    stale: true,
  });
  // By value: what changes no number asks nothing anew.
  const key = question ? JSON.stringify(question) : "";
  const newest = useRef("");
  const ask = useRef<(key: string) => void>(() => {});

  useEffect(() => {
    let worker = startWorker();
    let asked = "";
    let waiting = "";
    const told = (of: string, reply: Reply<unknown>) => {
      // An answer to what has been asked since is newer than what is shown: it is shown until the next one comes.
      const stale = newest.current !== of;
      if (newest.current === "") return;
      setAnswered(
        "answer" in reply
          ? { answer: reply.answer as Answers[Q["ask"]], question: JSON.parse(of), failure: null, stale }
          : (before) => ({ ...before, failure: reply.failure, stale: true }),
      );
    };
    const send = (next: string) => {
      if (!worker) told(next, onThisThread(JSON.parse(next)));
      else if (asked) waiting = next;
      else {
        asked = next;
        worker.postMessage(JSON.parse(next));
      }
    };
    const done = (): string => {
      const of = asked;
      const next = waiting;
      asked = "";
      waiting = "";
      if (next) send(next);
      return of;
    };
    if (worker) {
      worker.onmessage = ({ data }: MessageEvent<Reply<unknown> | { progress: number }>) => {
        if (!("progress" in data)) told(done(), data);
      };
      // A worker that cannot run (an old browser, a strict proxy) leaves everything to the page's own thread.
      worker.onerror = () => {
        worker = null;
        const left = waiting || asked;
        if (left) send(left);
      };
    }
    ask.current = send;
    return () => worker?.terminate();
  }, []);

  useEffect(() => {
    newest.current = key;
    setAnswered((before) => (before.stale ? before : { ...before, stale: true }));
    if (!key) return;
    if (pause === 0) {
      ask.current(key);
      return;
    }
    const timer = setTimeout(() => ask.current(key), pause);
    return () => clearTimeout(timer);
  }, [key, pause]);

  return answered;
}

type Search = Extract<Question, { ask: "tune" }>;

export type Searching =
  | { state: "none" }
  | { state: "running"; progress: number }
  | { state: "stopped" }
  | { state: "done"; question: Search; result: Answers["tune"] }
  | { state: "failed"; failure: string };

export function useSearch() {
  const [searching, setSearching] = useState<Searching>({ state: "none" });
  const worker = useRef<Worker | null>(null);
  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = null;
  }, []);
  useEffect(() => end, [end]);

  const start = useCallback(
    (question: Search) => {
      end();
      setSearching({ state: "running", progress: 0 });
      const finish = (reply: Reply<unknown>) => {
        end();
        setSearching(
          "answer" in reply
            ? { state: "done", question, result: reply.answer as Answers["tune"] }
            : { state: "failed", failure: reply.failure },
        );
      };
      // Once the page has drawn that it searches.
      const here = () => setTimeout(() => finish(onThisThread(question)), 50);
      const started = startWorker();
      worker.current = started;
      if (!started) {
        here();
        return;
      }
      started.onmessage = ({ data }: MessageEvent<Reply<unknown> | { progress: number }>) => {
        if ("progress" in data) setSearching({ state: "running", progress: data.progress });
        else finish(data);
      };
      started.onerror = () => {
        end();
        here();
      };
      started.postMessage(question);
    },
    [end],
  );
  const stop = useCallback(() => {
    end();
    setSearching({ state: "stopped" });
  }, [end]);
  return { searching, start, stop };
}
