"use client";
import { useCallback, useEffect, useRef, useState } from "react";
import type { Problem } from "@/lib/api/contracts";
import { newKey } from "./key";
import { isOver, keepTry, keptTry, type OpenTry } from "./open-try";
import { type Method, type Sent, send } from "./send";

export const UNREACHED =
  "The server did not answer. What you typed is still here: check the network and send it again. " +
  "Sending twice changes nothing the second time.";

export interface Writing<T> {
  /** `wait` is for what is large, ms. */
  write: (method: Method, url: string, body: unknown, wait?: number) => Promise<Sent<T>>;
  sending: boolean;
  /** What is wrong with the whole, in a sentence; null when nothing is. */
  trouble: string | null;
  problem: Problem | null;
  /** The sentence that belongs to one field of the body, by its path: `fix.distance`. */
  errorFor: (field: string) => string | null;
  clear: () => void;
}

/**
 * One form's way to the server. The key is made with the first try and kept until an answer settles it, as long
 * as the same thing is sent: a second press after a lost answer is then the same write.
 *
 * @param keptAs where the browser keeps it through a reload, for what must not be done twice (open-try.ts)
 */
export function useWrite<T>(keptAs?: string): Writing<T> {
  const [sending, setSending] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const open = useRef<OpenTry | null>(null);
  const busy = useRef(false);
  const here = useRef(true);

  useEffect(() => {
    here.current = true;
    return () => {
      here.current = false;
    };
  }, []);

  const write = useCallback(
    async (method: Method, url: string, body: unknown, wait?: number): Promise<Sent<T>> => {
      if (busy.current) return { ok: false, reached: false };
      busy.current = true;
      setSending(true);
      const what = `${method} ${url} ${JSON.stringify(body)}`;
      if (keptAs !== undefined) open.current ??= keptTry(keptAs);
      if (open.current?.what !== what) open.current = { key: newKey(), what };
      if (keptAs !== undefined) keepTry(keptAs, open.current);
      const sent = await send<T>(method, url, body, open.current.key, wait);
      if (sent.ok || (sent.reached && sent.settled)) open.current = null;
      if (keptAs !== undefined && isOver(sent)) keepTry(keptAs, null);
      busy.current = false;
      if (!here.current) return sent;
      setSending(false);
      setProblem(!sent.ok && sent.reached ? sent.problem : null);
      setTrouble(sent.ok ? null : sent.reached ? sent.problem.detail : UNREACHED);
      return sent;
    },
    [keptAs],
  );

  const errorFor = useCallback(
    (field: string) => problem?.errors?.find((error) => error.field === field)?.message ?? null,
    [problem],
  );
  const clear = useCallback(() => {
    setProblem(null);
    setTrouble(null);
  }, []);
  return { write, sending, trouble, problem, errorFor, clear };
}
