"use client";
/** Asking for what takes long: progress while it is computed, the answer or the refusal after it. */
import { useCallback, useEffect, useRef, useState } from "react";
import { readEvents } from "@/app/_ui/read-events";

export type Asked<T> =
  | { state: "idle" }
  /** Share of the work, 0 to 1; null until it has begun. */
  | { state: "asking"; done: number | null }
  | { state: "refused"; why: string }
  | { state: "answered"; answer: T };

const BROKEN = "The answer broke off. Look at the connection and ask again.";

/** `ask` starts anew and drops what was asked before; `forget` drops the answer too. */
export function useAnswer<T>(): { asked: Asked<T>; ask: (url: string) => Promise<void>; forget: () => void } {
  const [asked, setAsked] = useState<Asked<T>>({ state: "idle" });
  const running = useRef<AbortController | null>(null);
  useEffect(() => () => running.current?.abort(), []);

  const ask = useCallback(async (url: string) => {
    running.current?.abort();
    const own = new AbortController();
    running.current = own;
    const tell = (next: Asked<T>) => {
      if (running.current === own) setAsked(next);
    };
    tell({ state: "asking", done: null });
    tell(await answerOf<T>(url, own.signal, (done) => tell({ state: "asking", done })));
  }, []);

  const forget = useCallback(() => {
    running.current?.abort();
    running.current = null;
    setAsked({ state: "idle" });
  }, []);
  return { asked, ask, forget };
}

async function answerOf<T>(
  url: string,
  signal: AbortSignal,
  onProgress: (done: number) => void,
): Promise<Asked<T>> {
  try {
    const response = await fetch(url, {
      signal,
      cache: "no-store",
      headers: { accept: "text/event-stream, application/json;q=0.9" },
    });
    if (!response.body || !response.headers.get("content-type")?.includes("text/event-stream")) {
      const answer = await response.json();
      return response.ok
        ? { state: "answered", answer: answer as T }
        : { state: "refused", why: String(answer?.detail ?? BROKEN) };
    }
    for await (const { event, data } of readEvents(response.body)) {
      if (event === "progress") onProgress(JSON.parse(data).done);
      if (event === "answer") return { state: "answered", answer: JSON.parse(data) as T };
      if (event === "problem") return { state: "refused", why: JSON.parse(data).detail };
    }
    return { state: "refused", why: BROKEN };
  } catch {
    return { state: "refused", why: "The server did not answer. Look at the connection and ask again." };
  }
}
