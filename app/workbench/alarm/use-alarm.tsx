"use client";
/** Which throws call STOP, for every page of the workbench: what was judged is kept, and only what changed is judged anew. */
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
import { keep, kept } from "@/app/_ui/browser-memory";
import { startLongJob } from "@/app/_ui/long-job";
import type { trials } from "@/lib/throw";
import { VERDICTS_KEY } from "../kept/names";
import { useLog } from "../trials/log/use-log";
import type { MachineAsked } from "../trials/machine/ask";
import { type Carried, carriedFrom } from "./carried";
import { isLast, judge, type Part } from "./judge";
import { asCarried, type Received, stands } from "./received";
import { useReceived } from "./use-received";
import {
  type Case,
  casesOf,
  isJudged,
  type Sign,
  signsOf,
  type Verdicts,
  verdictOf,
  verdictsFromText,
  verdictsToText,
  withThoseOf,
  withVerdict,
} from "./verdict";

interface Alarm {
  cases: readonly Case[];
  verdicts: Verdicts;
  /** The gravest first. */
  signs: readonly Sign[];
  /** That came with a machine of another browser, and that nobody has answered here. */
  received: readonly Received[];
  /** What a machine that is handed on takes along of all this. */
  carried: readonly Carried[];
  /** Why the throws of a machine could not be judged. */
  failures: readonly { case: Case; message: string }[];
  /** A page that works out a machine itself says so, and tells what it finds. */
  claim: (id: string) => () => void;
  report: (judged: Case, found: trials.CalibratedMachine, provisional: boolean) => void;
  fail: (judged: Case, message: string) => void;
}

const Context = createContext<Alarm | null>(null);

export function useAlarm(): Alarm {
  const found = useContext(Context);
  if (!found) throw new Error("This stands only on the workbench's pages.");
  return found;
}

/** Time for a page to say that it judges itself, and to draw itself, ms. */
const PAUSE = 200;
const makeWorker = () => new Worker(new URL("./judge-worker.ts", import.meta.url));
const JOB = { makeWorker, compute: judge, isLast };

export function AlarmProvider({ children }: { children: ReactNode }) {
  const { log, loaded, broken } = useLog();
  const { stops } = useReceived();
  const [verdicts, setVerdicts] = useState<Verdicts>({});
  const [read, setRead] = useState(false);
  const [failed, setFailed] = useState<Readonly<Record<string, string>>>({});
  const [claimed, setClaimed] = useState<string | null>(null);

  const cases = useMemo(() => casesOf(log), [log]);
  const signs = useMemo(() => signsOf(cases, verdicts), [cases, verdicts]);

  // Those of machines that the log holds no longer are let go.
  const known = useRef(cases);
  known.current = cases;

  useEffect(() => {
    setVerdicts(verdictsFromText(kept(VERDICTS_KEY)));
    setRead(true);
    // Another tab may have been quicker.
    const hear = ({ key, newValue }: StorageEvent) => {
      if (key === VERDICTS_KEY)
        setVerdicts((own) => withThoseOf(verdictsFromText(newValue), own, known.current));
    };
    addEventListener("storage", hear);
    return () => removeEventListener("storage", hear);
  }, []);

  const report = useCallback(({ id, ...of }: Case, found: trials.CalibratedMachine, provisional: boolean) => {
    setVerdicts((before) => {
      const made = { id, ...of };
      if (!made.asked || (before[id]?.of === made.of && !before[id].provisional)) return before;
      const next = withVerdict(before, id, verdictOf(made, found, made.asked, provisional));
      if (JSON.stringify(next[id]) === JSON.stringify(before[id])) return before;
      const left = Object.entries(next).filter(([each]) => known.current.some((one) => one.id === each));
      return Object.fromEntries(left);
    });
  }, []);
  const fail = useCallback(
    ({ of }: Case, message: string) => setFailed((before) => ({ ...before, [of]: message })),
    [],
  );
  const claim = useCallback((id: string) => {
    setClaimed(id);
    return () => setClaimed((now) => (now === id ? null : now));
  }, []);

  // A full storage keeps none: then they are worked out anew after a reload.
  useEffect(() => {
    if (read && Object.keys(verdicts).length > 0) keep(VERDICTS_KEY, verdictsToText(verdicts));
  }, [verdicts, read]);

  const open = read && loaded ? cases.filter((each) => !isJudged(each, verdicts)) : [];
  const next = open.find(({ id, of }) => id !== claimed && failed[of] === undefined);
  const value = useMemo(() => {
    const failures = cases.flatMap((each) => {
      const message = failed[each.of];
      return message === undefined || isJudged(each, verdicts) ? [] : [{ case: each, message }];
    });
    // A throw that came here itself is dealt with in its own log.
    const own = new Set(log.throws.map(({ id }) => id));
    const received = stops.filter((each) => stands(each) && !own.has(each.throw));
    const unknown = cases.filter((each) => !isJudged(each, verdicts));
    const carried = carriedFrom(signs, unknown, broken !== null, received.map(asCarried));
    return { cases, verdicts, signs, received, carried, failures, claim, report, fail };
  }, [log, broken, stops, cases, verdicts, signs, failed, claim, report, fail]);
  return (
    <Context value={value}>
      {next?.asked ? (
        <Judge
          key={next.of}
          asked={next.asked}
          heard={(part) =>
            "failure" in part ? fail(next, part.failure) : report(next, part.found, part.provisional)
          }
        />
      ) : null}
      {children}
    </Context>
  );
}

function Judge({ asked, heard }: { asked: MachineAsked; heard: (part: Part) => void }) {
  const newest = useRef({ asked, heard });
  newest.current = { asked, heard };
  useEffect(() => {
    let drop = () => {};
    const timer = setTimeout(() => {
      drop = startLongJob(JOB, newest.current.asked, (part: Part) => newest.current.heard(part));
    }, PAUSE);
    return () => {
      clearTimeout(timer);
      drop();
    };
  }, []);
  return null;
}
