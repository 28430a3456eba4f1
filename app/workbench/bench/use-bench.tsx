"use client";
/** The bench of this browser, for every page of the workbench: kept through reloads, shared between its pages. */
import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useReducer,
  useRef,
  useState,
} from "react";
import { keptText } from "@/app/_ui/kept-text";
import { readAddress } from "@/app/_ui/machine-form/form/link";
import { type Reading, readForm } from "@/app/_ui/machine-form/form/request";
import { forgetLink, LinkNotice, type LinkTold, toldOf } from "@/app/_ui/machine-form/link-notice";
import { useUnits } from "@/app/_ui/units";
import { carriedOutOfLink } from "../alarm/carried";
import { useReceived } from "../alarm/use-received";
import { carryOver } from "../before/checklist/carry";
import { BENCH_KEY } from "../kept/names";
import {
  type Bench,
  type BenchAction,
  benchFromText,
  benchToText,
  changeBench,
  chosenOf,
  isWhole,
  MOST_REVISIONS,
  newBench,
  type Revision,
  roomOn,
} from "./bench";
import styles from "./bench.module.css";

interface OnBench {
  bench: Bench;
  /** The revision being worked on. */
  revision: Revision;
  /** Its form as a request, or why it is none yet. */
  reading: Reading;
  change: (action: BenchAction) => void;
  /** Whether what was kept has been read: nothing is worth computing before. */
  loaded: boolean;
}

const NO_ROOM: LinkTold = {
  opened: false,
  title: "The link was not opened",
  words: [
    `The bench holds ${MOST_REVISIONS} revisions and has no room for another; nothing on it was changed.`,
    "Take one off on the page Machine, then open the link again.",
  ],
};

const Context = createContext<OnBench | null>(null);

export function BenchProvider({ children }: { children: ReactNode }) {
  const system = useUnits();
  const received = useReceived();
  const [bench, dispatch] = useReducer(changeBench, system, newBench);
  const [loaded, setLoaded] = useState(false);
  const [told, setTold] = useState<LinkTold | null>(null);
  const newest = useRef(bench);
  newest.current = bench;
  /** Whether anything was done to it here: nobody is told that a bench as it starts is not kept. */
  const touched = useRef(false);

  const receive = useRef(received.receive);
  receive.current = received.receive;

  /** A link to numbers makes a revision of its own: what was on the bench stays. Taken before, it is on the bench. */
  const openLink = useCallback(() => {
    const link = readAddress(location, system);
    if (link.state === "none") return;
    const { revisions } = newest.current;
    const taken =
      link.state === "open" &&
      revisions.find(({ form }) => JSON.stringify(form) === JSON.stringify(link.form));
    const full = link.state === "open" && !taken && roomOn(newest.current) === 0;
    setTold(full ? NO_ROOM : toldOf(link));
    if (link.state !== "open" || full) return;
    receive.current((link.stops ?? []).map(carriedOutOfLink), "a link");
    const id = taken ? taken.id : newRevisionId();
    const made = { id, name: "From a link", note: "", form: link.form };
    const action: BenchAction = { do: "add", revisions: taken ? [] : [made], chosen: id };
    touched.current ||= !taken;
    dispatch(action);
    newest.current = changeBench(newest.current, action);
    // Once the router has taken history over: until then it would bring the link back with its next step.
    setTimeout(forgetLink);
  }, [system]);

  useEffect(() => {
    const store = keptText(BENCH_KEY);
    const text = store.read();
    const found = benchFromText(text);
    touched.current ||= found !== null;
    // A part that cannot be read would be gone with the next change.
    if (text !== null && !isWhole(text, found)) store.setAside();
    const change = dispatch;
    if (found) change({ do: "replace", bench: found });
    newest.current = found ?? newest.current;
    openLink();
    change({ do: "units", system });
    setLoaded(true);
    addEventListener("hashchange", openLink);
    return () => removeEventListener("hashchange", openLink);
  }, [system, openLink]);

  useEffect(() => {
    if (loaded && touched.current) keptText(BENCH_KEY).write(benchToText(bench));
  }, [bench, loaded]);

  // Another tab may work on the same bench: the newest word counts in both.
  useEffect(
    () =>
      keptText(BENCH_KEY).hear((text) => {
        const found = benchFromText(text);
        if (text !== null && !isWhole(text, found)) keptText(BENCH_KEY).hold();
        else if (found) dispatch({ do: "replace", bench: found });
      }),
    [],
  );

  const change = useCallback((action: BenchAction) => {
    const { revisions } = newest.current;
    if (action.do === "copy" && revisions.length < MOST_REVISIONS)
      carryOver(chosenOf(newest.current), action.id);
    touched.current = true;
    dispatch(action);
  }, []);

  const revision = chosenOf(bench);
  const reading = useMemo(() => readForm(revision.form), [revision.form]);
  const value = useMemo(
    () => ({ bench, revision, reading, change, loaded }),
    [bench, revision, reading, change, loaded],
  );
  // What is typed before the bench is there would be replaced by it, unseen.
  return (
    <Context value={value}>
      <fieldset role="none" disabled={!loaded} className={styles.bench}>
        <LinkNotice
          told={told}
          onClose={() => {
            setTold(null);
            forgetLink();
          }}
        />
        {children}
      </fieldset>
    </Context>
  );
}

export function useBench(): OnBench {
  const found = useContext(Context);
  if (!found) throw new Error("This stands only on the workbench's pages.");
  return found;
}

/** Of this browser alone: it need not be unlike anybody else's. */
export const newRevisionId = (): string =>
  `${Date.now().toString(36)}-${Math.floor(Math.random() * 1e6).toString(36)}`;
