"use client";
/** The quick answer while numbers change: newest question wins, in a worker where the browser has one. */
import { useEffect, useRef, useState } from "react";
import { type HazardRequest, type Preview, preview } from "@/lib/throw";

export interface Previewed {
  /** The last answer; kept, and marked stale, while there is no complete question. */
  preview: Preview | null;
  request: HazardRequest | null;
  stale: boolean;
  /** Why the newest question has no answer. */
  failure: string | null;
}

type Answer = { preview: Preview } | { failure: string };
type Ask = (request: HazardRequest, answered: (answer: Answer) => void) => void;

function onThisThread(): Ask {
  return (request, answered) => {
    try {
      answered({ preview: preview(request) });
    } catch (error) {
      answered({ failure: error instanceof Error ? error.message : String(error) });
    }
  };
}

/**
 * One question in the worker at a time; of those that wait only the newest is kept. A worker that cannot run
 * (an old browser, a strict proxy) leaves its question, and all that follow, to the page's own thread.
 */
function inWorker(worker: Worker, otherwise: Ask): Ask {
  let asked: Parameters<Ask> | null = null;
  let waiting: Parameters<Ask> | null = null;
  let broken = false;
  const send: Ask = (request, answered) => {
    if (broken) otherwise(request, answered);
    else if (asked) waiting = [request, answered];
    else {
      asked = [request, answered];
      worker.postMessage(request);
    }
  };
  worker.addEventListener("message", (event: MessageEvent<Answer>) => {
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

/** A pause in typing before the next question, ms. */
const PAUSE = 60;

export function usePreview(request: HazardRequest | null): Previewed {
  const [previewed, setPreviewed] = useState<Previewed>({
    preview: null,
    request: null,
    stale: true,
    failure: null,
  });
  const ask = useRef<Ask | null>(null);
  const newest = useRef("");
  // By value: a keystroke that changes no number asks nothing anew.
  const key = request ? JSON.stringify(request) : "";

  useEffect(() => {
    const here = onThisThread();
    let worker: Worker | null = null;
    ask.current = here;
    try {
      worker = new Worker(new URL("./preview-worker.ts", import.meta.url));
      ask.current = inWorker(worker, here);
    } catch {
      // No workers in this browser: the page computes by itself.
    }
    return () => worker?.terminate();
  }, []);

  useEffect(() => {
    newest.current = key;
    setPreviewed((before) => (before.stale ? before : { ...before, stale: true }));
    if (!key) return;
    const question: HazardRequest = JSON.parse(key);
    const timer = setTimeout(() => {
      ask.current?.(question, (answer) => {
        if (newest.current !== key) return;
        setPreviewed((before) =>
          "preview" in answer
            ? { preview: answer.preview, request: question, stale: false, failure: null }
            : { ...before, stale: true, failure: answer.failure },
        );
      });
    }, PAUSE);
    return () => clearTimeout(timer);
  }, [key]);

  return previewed;
}
