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
import { formFromHash } from "@/app/_ui/machine-form/form/memory";
import { type Reading, readForm } from "@/app/_ui/machine-form/form/request";
import { useUnits } from "@/app/_ui/units";
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

const Context = createContext<OnBench | null>(null);

export function BenchProvider({ children }: { children: ReactNode }) {
  const system = useUnits();
  const [bench, dispatch] = useReducer(changeBench, system, newBench);
  const [loaded, setLoaded] = useState(false);
  const newest = useRef(bench);
  newest.current = bench;
  /** Whether anything was done to it here: nobody is told that a bench as it starts is not kept. */
  const touched = useRef(false);

  useEffect(() => {
    const store = keptText(BENCH_KEY);
    const text = store.read();
    const found = benchFromText(text);
    touched.current ||= found !== null;
    // A part that cannot be read would be gone with the next change.
    if (text !== null && !isWhole(text, found)) store.setAside();
    const change = dispatch;
    if (found) change({ do: "replace", bench: found });
    // A link to numbers makes a revision of its own: what was on the bench stays. Taken before, it is on the bench.
    const linked = formFromHash(location.hash, system);
    const taken =
      linked && found?.revisions.find(({ form }) => JSON.stringify(form) === JSON.stringify(linked));
    if (taken) change({ do: "choose", id: taken.id });
    else if (linked) {
      touched.current = true;
      change({ do: "copy", id: newRevisionId(), name: "From a link" });
      change({ do: "form", change: { type: "replace", state: linked } });
    }
    // Once the router has taken history over: until then it would bring the link back with its next step.
    if (linked) setTimeout(() => history.replaceState(null, "", location.pathname + location.search));
    change({ do: "units", system });
    setLoaded(true);
  }, [system]);

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
