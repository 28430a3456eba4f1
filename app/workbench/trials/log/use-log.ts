"use client";
/** The log of this browser: kept through reloads, never written over a text that cannot be read. */
import { useCallback, useEffect, useRef, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { emptyLog, type Log, logFromText, logToText } from "./log";

const KEY = "fairthrow-trials";
const ASIDE = "fairthrow-trials-set-aside";

export interface KeptLog {
  log: Log;
  loaded: boolean;
  /** The text that cannot be read, and why: nothing is written until it has been put aside. */
  broken: { text: string; wrong: string } | null;
  /** The browser refuses to keep more: what is shown is only in this page. */
  unkept: boolean;
  change: (log: Log, did: string) => void;
  /** What the last change was, and how it is taken back. */
  last: { did: string; undo: () => void } | null;
  putAside: () => void;
}

export function useLog(): KeptLog {
  const [log, setLog] = useState<Log>(emptyLog);
  const [loaded, setLoaded] = useState(false);
  const [broken, setBroken] = useState<KeptLog["broken"]>(null);
  const [unkept, setUnkept] = useState(false);
  const [before, setBefore] = useState<{ did: string; log: Log } | null>(null);
  const newest = useRef(log);
  newest.current = log;

  const take = useCallback((text: string | null) => {
    const found = logFromText(text);
    if ("wrong" in found) setBroken({ text: text ?? "", wrong: found.wrong });
    else {
      setBroken(null);
      setLog(found);
    }
  }, []);

  useEffect(() => {
    take(kept(KEY));
    setLoaded(true);
    // Another tab may write throws too: the newest log counts in both.
    const hear = (event: StorageEvent) => {
      if (event.key !== KEY) return;
      take(event.newValue);
      setBefore(null);
    };
    addEventListener("storage", hear);
    return () => removeEventListener("storage", hear);
  }, [take]);

  const write = useCallback((next: Log) => {
    setLog(next);
    setUnkept(!keep(KEY, logToText(next)));
  }, []);

  const change = useCallback(
    (next: Log, did: string) => {
      setBefore({ did, log: newest.current });
      write(next);
    },
    [write],
  );

  const last = before && {
    did: before.did,
    undo: () => {
      write(before.log);
      setBefore(null);
    },
  };

  const putAside = () => {
    if (!broken || !keep(ASIDE, broken.text)) {
      setUnkept(true);
      return;
    }
    keep(KEY, null);
    take(null);
  };

  return { log, loaded, broken, unkept, change, last, putAside };
}
