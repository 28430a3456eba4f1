"use client";
/** The bench of this browser, for every page of the workbench: kept through reloads, shared between its pages. */
import { createContext, type ReactNode, useContext, useEffect, useMemo, useReducer, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { formFromHash } from "@/app/_ui/machine-form/form/memory";
import { type Reading, readForm } from "@/app/_ui/machine-form/form/request";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import {
  type Bench,
  type BenchAction,
  benchFromText,
  benchToText,
  changeBench,
  chosenOf,
  newBench,
  type Revision,
} from "./bench";
import styles from "./bench.module.css";

const KEY = "fairthrow-bench";

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
  const [bench, change] = useReducer(changeBench, system, newBench);
  const [loaded, setLoaded] = useState(false);
  /** Whether the browser took what is on the page. */
  const [stored, setStored] = useState(true);

  useEffect(() => {
    const found = benchFromText(kept(KEY));
    if (found) change({ do: "replace", bench: found });
    // A link to numbers makes a revision of its own: what was on the bench stays. Taken before, it is on the bench.
    const linked = formFromHash(location.hash, system);
    const taken =
      linked && found?.revisions.find(({ form }) => JSON.stringify(form) === JSON.stringify(linked));
    if (taken) change({ do: "choose", id: taken.id });
    else if (linked) {
      change({ do: "copy", id: newRevisionId(), name: "From a link" });
      change({ do: "form", change: { type: "replace", state: linked } });
    }
    // Once the router has taken history over: until then it would bring the link back with its next step.
    if (linked) setTimeout(() => history.replaceState(null, "", location.pathname + location.search));
    change({ do: "units", system });
    setLoaded(true);
  }, [system]);

  useEffect(() => {
    if (loaded) setStored(keep(KEY, benchToText(bench)));
  }, [bench, loaded]);

  // Another tab may work on the same bench: the newest word counts in both.
  useEffect(() => {
    const hear = (event: StorageEvent) => {
      const found = event.key === KEY ? benchFromText(event.newValue) : null;
      if (found) change({ do: "replace", bench: found });
    };
    addEventListener("storage", hear);
    return () => removeEventListener("storage", hear);
  }, []);

  const revision = chosenOf(bench);
  const reading = useMemo(() => readForm(revision.form), [revision.form]);
  const value = useMemo(
    () => ({ bench, revision, reading, change, loaded }),
    [bench, revision, reading, loaded],
  );
  // What is typed before the bench is there would be replaced by it, unseen.
  return (
    <Context value={value}>
      <fieldset role="none" disabled={!loaded} className={styles.bench}>
        {!stored && (
          <Notice kind="problem" title="Machine not kept">
            <p>
              This browser has no room or stores nothing: the machine as changed last is on this page alone. A
              reload or another tab shows the one before, with its zone. Save it as a file under Share.
            </p>
          </Notice>
        )}
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
