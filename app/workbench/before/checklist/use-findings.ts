"use client";
/** The findings of the chosen revision, kept in this browser. */
import { useCallback, useEffect, useState } from "react";
import { useBench } from "../../bench/use-bench";
import { recall, remember } from "../numbers/memory";
import { type Finding, type Findings, findingsFromText, withFinding } from "./findings";

const KEY = "fairthrow-findings";

export function useFindings() {
  const { bench, revision, loaded } = useBench();
  const [all, setAll] = useState<Record<string, Findings>>({});
  const [kept, setKept] = useState(true);
  useEffect(() => {
    const read = () => setAll(findingsFromText(recall(KEY)));
    read();
    // Another tab may tick lines too.
    const hear = (event: StorageEvent) => event.key === KEY && read();
    addEventListener("storage", hear);
    return () => removeEventListener("storage", hear);
  }, []);
  const find = useCallback(
    (line: string, finding: Finding) => {
      if (!loaded) return;
      const onBench = bench.revisions.map(({ id }) => id);
      const next = withFinding(findingsFromText(recall(KEY)), onBench, revision.id, line, finding);
      setKept(remember(KEY, JSON.stringify(next)));
      setAll(next);
    },
    [bench.revisions, revision.id, loaded],
  );
  /** Gives another revision all findings of this one: those whose numbers differ there fall by themselves. */
  const copyTo = useCallback(
    (id: string) => {
      const before = findingsFromText(recall(KEY));
      const next = { ...before, [id]: before[revision.id] ?? {} };
      setKept(remember(KEY, JSON.stringify(next)));
      setAll(next);
    },
    [revision.id],
  );
  return { findings: all[revision.id] ?? {}, find, copyTo, kept };
}
