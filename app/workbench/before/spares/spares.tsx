"use client";
import { figureText } from "@/app/_ui/inspection/texts";
/** What to take along: the smallest reserves first, then what the kind wears. */
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { type Spare, sparesFor } from "@/lib/inspection";
import styles from "../before.module.css";
import type { StatusWords } from "../checklist/finding-tiles";
import { standingOf } from "../checklist/findings";
import { LineList } from "../checklist/line-list";
import { useFindings } from "../checklist/use-findings";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";

const WORDS: StatusWords = { looked: "Packed", "to-do": "To get", none: "Not needed" };

export function Spares({ request, found, title }: SectionProps) {
  const system = useUnits();
  const { findings, find } = useFindings();
  const spares = sparesFor(request.machine, found).map((spare) => ({
    ...spare,
    key: `spare-${spare.id}`,
    standing: standingOf(findings[`spare-${spare.id}`], {}),
  }));
  const packed = spares.filter(
    ({ standing: { status, carried } }) => status === "looked" && carried === null,
  ).length;
  const carried = spares.filter(({ standing }) => standing.carried !== null).length;
  const numbers = ({ load, reserve }: Spare) =>
    load === null
      ? ""
      : `Largest load ${figureText(load.value, load.dimension, system)}; ${reserve === null ? "no strength declared" : `least reserve ${figureText(reserve, "ratio", system)}`}.`;
  return (
    <>
      <p className={styles.of}>{title}</p>
      <p role="status">
        {packed} of {spares.length} packed.
        {carried > 0 && ` ${carried} carried over from another revision: look again.`}
      </p>
      <LineList
        words={WORDS}
        kind={request.machine.kind}
        onFind={find}
        lines={spares.map((spare) => ({
          id: spare.key,
          title: spare.what,
          now: {},
          standing: spare.standing,
          body: (
            <p>
              {spare.reason} {numbers(spare)}
            </p>
          ),
        }))}
      />
      <div className={styles.paper}>
        <Table
          caption="Spare parts"
          hideCaption
          rows={spares}
          rowKey={({ id }) => id}
          columns={[
            { key: "what", head: "Take along", rowHead: true, cell: ({ what }) => what },
            { key: "why", head: "Why", cell: (spare) => `${spare.reason} ${numbers(spare)}` },
            {
              key: "packed",
              head: "Packed",
              cell: ({ standing: { status, note, carried: from } }) =>
                [status ? WORDS[status] : "☐", from === null ? "" : `for “${from}”, look again`, note]
                  .filter(Boolean)
                  .join(": "),
            },
          ]}
        />
      </div>
      <p className={`${styles.small} no-print`}>
        In the order of the smallest reserve, where a strength is declared under What may break; then of what
        wears first on such machines (common practice, no source).
      </p>
      <PrintSection what="the list" />
    </>
  );
}
