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

/** One question in the worker at a time; of those that wait only the newest is kept. */
function inWorker(worker: Worker): Ask {
  let busy: ((answer: Answer) => void) | null = null;
  let waiting: Parameters<Ask> | null = null;
  let id = 0;
  const send: Ask = (request, answered) => {
    if (busy) {
      waiting = [request, answered];
      return;
    }
    busy = answered;
    worker.postMessage({ id: ++id, request });
  };
  worker.addEventListener("message", (event: MessageEvent<Answer>) => {
    const answered = busy;
    busy = null;
    const next = waiting;
    waiting = null;
    if (next) send(...next);
    answered?.(event.data);
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
  const [restarts, setRestarts] = useState(0);
  const key = request ? JSON.stringify(request) : "";

  useEffect(() => {
    let worker: Worker | null = null;
    ask.current = onThisThread();
    try {
      worker = new Worker(new URL("./preview-worker.ts", import.meta.url));
      const local = ask.current;
      ask.current = inWorker(worker);
      // A worker that cannot start (an old browser, a strict proxy) leaves the work to the page.
      worker.addEventListener("error", () => {
        ask.current = local;
        setRestarts((count) => count + 1);
      });
    } catch {
      worker = null;
    }
    return () => worker?.terminate();
  }, []);

  // The key stands for the request.
  useEffect(() => {
    newest.current = key;
    setPreviewed((before) => (before.stale ? before : { ...before, stale: true }));
    if (!request) return;
    const timer = setTimeout(() => {
      ask.current?.(request, (answer) => {
        if (newest.current !== key) return;
        setPreviewed((before) =>
          "preview" in answer
            ? { preview: answer.preview, request, stale: false, failure: null }
            : { ...before, stale: true, failure: answer.failure },
        );
      });
    }, PAUSE);
    return () => clearTimeout(timer);
  }, [key, restarts]);

  return previewed;
}
