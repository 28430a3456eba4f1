"use client";
/** The log of this browser, for every page of the workbench: never written over a text that cannot be read. */
import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import { keptText } from "@/app/_ui/kept-text";
import { LOG_KEY } from "../../kept/names";
import { emptyLog, type Log, logFromText, logToText } from "./log";
import { mergedLogs } from "./merge";

const store = () => keptText(LOG_KEY, mergedLogs);

export interface KeptLog {
  log: Log;
  loaded: boolean;
  /** The text that cannot be read, and why: nothing is written until it has been put aside. */
  broken: { text: string; wrong: string } | null;
  /** The text that cannot be read could not be put aside either. */
  unkept: boolean;
  change: (log: Log, did: string) => void;
  /** What the last change was, and how it is taken back. */
  last: { did: string; before: Log; undo: () => void } | null;
  /** What was refused since must not stand beside what was done before. */
  forgetLast: () => void;
  putAside: () => void;
}

const Context = createContext<KeptLog | null>(null);

export function LogProvider({ children }: { children: ReactNode }) {
  return <Context value={useKeptLog()}>{children}</Context>;
}

export function useLog(): KeptLog {
  const found = useContext(Context);
  if (!found) throw new Error("This stands only on the workbench's pages.");
  return found;
}

function useKeptLog(): KeptLog {
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
    take(store().read());
    setLoaded(true);
    // Another tab may write throws too: those of both count.
    return store().hear((text) => {
      take(text);
      setBefore(null);
    });
  }, [take]);

  const write = useCallback((next: Log) => {
    setLog(next);
    store().write(logToText(next));
  }, []);

  const change = useCallback(
    (next: Log, did: string) => {
      setBefore({ did, log: newest.current });
      write(next);
    },
    [write],
  );

  const putAside = useCallback(() => {
    if (store().setAside()) take(null);
    else setUnkept(true);
  }, [take]);

  const forgetLast = useCallback(() => setBefore(null), []);

  return useMemo(() => {
    const undo = () => {
      if (before) write(before.log);
      setBefore(null);
    };
    const last = before && { did: before.did, before: before.log, undo };
    return { log, loaded, broken, unkept, change, last, forgetLast, putAside };
  }, [log, loaded, broken, unkept, change, before, write, forgetLast, putAside]);
}
