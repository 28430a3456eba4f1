"use client";
/** The checklist of this kind of machine: looked at, to do, or does not apply. */
import { Caution } from "@/app/_ui/caution";
import { breaks, fallsShort, figuresText } from "@/app/_ui/inspection/figures-text";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { knownOf, linesFor, stoodOn } from "@/lib/inspection";
import { CheckedBy } from "../../checked-by";
import styles from "../before.module.css";
import { Short } from "../numbers/facts";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";
import type { StatusWords } from "./finding-tiles";
import { standingOf } from "./findings";
import { LineList } from "./line-list";
import { useFindings } from "./use-findings";

const WORDS: StatusWords = { looked: "Looked at", "to-do": "To do", none: "Does not apply" };

export function Checklist({ request, found, title }: SectionProps) {
  const system = useUnits();
  const { findings, find } = useFindings();
  const known = knownOf(request, found);
  const lines = linesFor(request.machine).map((line) => {
    const now = stoodOn(request, line.standsOn);
    return { ...line, now, numbers: line.figures(known), standing: standingOf(findings[line.id], now) };
  });
  const count = (status: keyof StatusWords | null) =>
    lines.filter(({ standing }) => standing.status === status && standing.carried === null).length;
  const carried = lines.filter(({ standing }) => standing.carried !== null).length;
  const open = count(null);
  return (
    <>
      <p className={styles.of}>{title}</p>
      <p role="status">
        {count("looked")} of {lines.length} looked at, {count("to-do")} to do, {count("none")} do not apply,{" "}
        {open === 0 ? "none open" : `${open} open`}.
        {carried > 0 && ` ${carried} carried over from another revision: look again.`}
      </p>
      <Caution kind="mandatory" title="the inspector looks at all of it anew">
        <p>
          A tick says that your team looked, on the numbers of that time. It clears nothing: the inspector and
          the safety officer decide on the day.
        </p>
      </Caution>
      <LineList
        words={WORDS}
        kind={request.machine.kind}
        onFind={find}
        lines={lines.map(({ id, title: name, look, reason, numbers, now, standing }) => ({
          id,
          title: name,
          now,
          standing,
          body: (
            <>
              <p>{look}</p>
              <p className={styles.small}>Why: {reason}</p>
              {numbers.length > 0 && (
                <p>
                  {fallsShort(numbers) ? (
                    <Short>
                      {figuresText(numbers, system)}{" "}
                      {breaks(numbers) ? "It breaks: do not throw with it." : "Below the usual factor."}
                    </Short>
                  ) : (
                    figuresText(numbers, system)
                  )}
                </p>
              )}
            </>
          ),
        }))}
      />
      <div className={styles.paper}>
        <Table
          caption="Checklist"
          hideCaption
          rows={lines}
          rowKey={({ id }) => id}
          columns={[
            { key: "line", head: "Line", rowHead: true, cell: (line) => line.title },
            {
              key: "look",
              head: "What to look at, and why",
              cell: ({ look, reason, numbers }) =>
                [look, reason, figuresText(numbers, system)].filter(Boolean).join(" "),
            },
            {
              key: "team",
              head: "The team",
              cell: ({ standing: { status, note, fallen, carried } }) =>
                [
                  status ? WORDS[status] : fallen.length > 0 ? "Look again" : "☐",
                  carried === null ? "" : `on “${carried}”, look again`,
                  note,
                ]
                  .filter(Boolean)
                  .join(": "),
            },
            { key: "inspector", head: "Inspector", cell: () => "☐" },
          ]}
        />
      </div>
      <CheckedBy />
      <PrintSection what="the checklist" />
    </>
  );
}
