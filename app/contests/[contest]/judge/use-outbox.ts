"use client";
import { useCallback, useEffect, useRef, useState } from "react";
import { type Sent, send } from "@/app/_ui/write/send";
import type { FixAnswer } from "@/lib/api/contracts";
import { type KeptEntry, keep, keptEntries, strike } from "./outbox";

const RETRY = 15_000;

/**
 * Keeps and sends a judge's entries. What was not answered is tried again with the same key when the network
 * comes back and every few seconds, and whenever the judge asks.
 */
export function useOutbox(slug: string, onSaved: (entry: KeptEntry, answer: FixAnswer) => void) {
  const [waiting, setWaiting] = useState<readonly KeptEntry[]>([]);
  const [stored, setStored] = useState(true);
  const busy = useRef(new Set<string>());
  const saved = useRef(onSaved);
  saved.current = onSaved;

  const list = useRef(waiting);
  list.current = waiting;

  const dispatch = useCallback(
    async (entry: KeptEntry): Promise<Sent<FixAnswer> | null> => {
      if (busy.current.has(entry.key)) return null;
      busy.current.add(entry.key);
      const sent = await sendEntry(entry);
      busy.current.delete(entry.key);
      if (sent.ok) {
        strike(slug, entry.key);
        setWaiting((all) => all.filter(({ key }) => key !== entry.key));
        saved.current(entry, sent.data);
      } else {
        const refused = sent.reached ? sent.problem : null;
        keep(slug, { ...entry, refused });
        setWaiting((all) => all.map((one) => (one.key === entry.key ? { ...one, refused } : one)));
      }
      return sent;
    },
    [slug],
  );

  /** Writes the entry down, then sends it. */
  const post = useCallback(
    (entry: KeptEntry) => {
      setStored(keep(slug, entry));
      setWaiting((all) => [...all, entry]);
      return dispatch(entry);
    },
    [slug, dispatch],
  );

  const drop = useCallback(
    (key: string) => {
      strike(slug, key);
      setWaiting((all) => all.filter((entry) => entry.key !== key));
    },
    [slug],
  );

  useEffect(() => {
    const again = () => {
      for (const entry of list.current) {
        // What was refused for good waits for the judge; the rest goes out.
        if (entry.refused === null || entry.refused.status >= 500) void dispatch(entry);
      }
    };
    list.current = keptEntries(slug);
    setWaiting(list.current);
    again();
    const timer = setInterval(again, RETRY);
    addEventListener("online", again);
    return () => {
      clearInterval(timer);
      removeEventListener("online", again);
    };
  }, [slug, dispatch]);

  return { waiting, stored, post, again: dispatch, drop };
}

/**
 * Sends one entry. A phone whose clock runs far ahead is refused for its time alone; the entry then goes without one,
 * and the server's own stands in.
 */
async function sendEntry({ url, body, key }: KeptEntry): Promise<Sent<FixAnswer>> {
  const sent = await send<FixAnswer>("POST", url, body, key);
  if (sent.ok || !sent.reached) return sent;
  const { errors = [] } = sent.problem;
  if (errors.length === 0 || errors.some(({ field }) => field !== "observedAt")) return sent;
  const { observedAt: _, ...timeless } = body;
  return send<FixAnswer>("POST", url, timeless, key);
}
