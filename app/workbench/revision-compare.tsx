"use client";
/** Revisions side by side: what they throw, and every number in which they differ. */
import { useEffect, useState } from "react";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { type Difference, differences } from "@/app/_ui/machine-form/form/differences";
import { readForm } from "@/app/_ui/machine-form/form/request";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import type { Preview } from "@/lib/throw";
import { askOnce } from "./bench/ask-once";
import type { Bench, Revision } from "./bench/bench";
import { useBench } from "./bench/use-bench";

type Answers = ReadonlyMap<string, Preview | string>;

export function RevisionCompare() {
  const system = useUnits();
  const { bench } = useBench();
  const answers = useAnswers(bench);
  const { revisions } = bench;
  if (revisions.length < 2)
    return (
      <section className="no-print" aria-labelledby="compare-title">
        <h2 id="compare-title">Revisions side by side</h2>
        <p>Copy this revision before you change something: then both stand here, with what differs.</p>
      </section>
    );
  const thrown = (revision: Revision, of: (preview: Preview) => number | null | undefined) => {
    const answer = answers.get(revision.id);
    if (answer === undefined) return "…";
    if (typeof answer === "string") return "not computed";
    const metres = of(answer);
    return metres === null || metres === undefined ? "nothing is thrown" : distanceText(metres, system);
  };
  const head = (revision: Revision, index: number) => `${index + 1}. ${revision.name}`;
  const rows: Difference[] = [
    {
      label: "Throw as meant",
      texts: revisions.map((each) => thrown(each, ({ nominal }) => nominal?.distance)),
    },
    {
      label: "Worst ahead, at the declared numbers",
      texts: revisions.map((each) => thrown(each, ({ worst }) => worst.forward.distance)),
    },
    {
      label: "Worst behind, at the declared numbers",
      texts: revisions.map((each) => thrown(each, ({ worst }) => worst.backward.distance)),
    },
    ...differences(
      revisions.map(({ form }) => form),
      system,
    ),
  ];
  return (
    <section className="no-print" aria-labelledby="compare-title">
      <h2 id="compare-title">Revisions side by side</h2>
      <Table
        caption="What the revisions throw, and every number in which they differ"
        rows={rows}
        rowKey={({ label }) => label}
        columns={[
          { key: "label", head: "What", rowHead: true, cell: ({ label }) => label },
          ...revisions.map((revision, index) => ({
            key: revision.id,
            head: head(revision, index),
            cell: ({ texts }: Difference) => texts[index] ?? "–",
          })),
        ]}
      />
    </section>
  );
}

/** Each revision computed once for what it is, one after the other. */
function useAnswers({ revisions }: Bench): Answers {
  const [answers, setAnswers] = useState<Answers>(new Map());
  useEffect(() => {
    if (revisions.length < 2) return;
    let here = true;
    const timer = setTimeout(async () => {
      const found = new Map<string, Preview | string>();
      for (const { id, form } of revisions) {
        const reading = readForm(form);
        found.set(id, reading.ok ? await askOnce(reading.request) : "not complete");
        if (!here) return;
      }
      setAnswers(found);
    }, 300);
    return () => {
      here = false;
      clearTimeout(timer);
    };
  }, [revisions]);
  return answers;
}
