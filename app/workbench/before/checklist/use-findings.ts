"use client";
/** The findings of the chosen revision, kept in this browser. */
import { useCallback, useEffect, useState } from "react";
import { keptText } from "@/app/_ui/kept-text";
import { useBench } from "../../bench/use-bench";
import { FINDINGS_KEY } from "../../kept/names";
import { type Finding, type Findings, findingsFromText, withFinding } from "./findings";

export function useFindings() {
  const { bench, revision, loaded } = useBench();
  const [all, setAll] = useState<Record<string, Findings>>({});
  useEffect(() => {
    const store = keptText(FINDINGS_KEY);
    const found = findingsFromText(store.read());
    if (found) setAll(found);
    else store.setAside();
    // Another tab may tick lines too.
    return store.hear((text) => {
      const heard = findingsFromText(text);
      if (heard) setAll(heard);
      else store.hold();
    });
  }, []);
  const find = useCallback(
    (line: string, finding: Finding) => {
      if (!loaded) return;
      const store = keptText(FINDINGS_KEY);
      const onBench = bench.revisions.map(({ id }) => id);
      const next = withFinding(findingsFromText(store.read()) ?? all, onBench, revision.id, line, finding);
      store.write(JSON.stringify(next));
      setAll(next);
    },
    [bench.revisions, revision.id, loaded, all],
  );
  return { findings: all[revision.id] ?? {}, find };
}
