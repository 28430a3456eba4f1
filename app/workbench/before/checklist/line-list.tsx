"use client";
/** Lines one below the other, one of them open: its words, its tick, and the way to the next. */
import { type ReactNode, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import type { Stood } from "@/lib/inspection";
import styles from "../before.module.css";
import { FindingTiles, type StatusWords } from "./finding-tiles";
import type { Finding, Standing } from "./findings";

export interface ListedLine {
  id: string;
  title: string;
  /** What is read before it is ticked. */
  body: ReactNode;
  /** The numbers that a new tick stands on. */
  now: Stood;
  standing: Standing;
}

const SIGNS = { looked: "✓", "to-do": "!", none: "–" } as const;

export function LineList({
  lines,
  words,
  kind,
  onFind,
}: {
  lines: readonly ListedLine[];
  words: StatusWords;
  kind: string;
  onFind: (line: string, finding: Finding) => void;
}) {
  const list = useRef<HTMLOListElement>(null);
  /** Null when all are closed; undefined until somebody has chosen. */
  const [chosen, choose] = useState<string | null>();
  const first =
    lines.find(({ standing }) => standing.status === null || standing.carried !== null)?.id ?? null;
  const open = chosen === undefined ? first : chosen;
  const goTo = (id: string) => {
    choose(id);
    requestAnimationFrame(() => {
      const button = list.current?.querySelector<HTMLElement>(`[aria-controls="line-${id}"]`);
      button?.scrollIntoView({ block: "start" });
      button?.focus();
    });
  };
  return (
    <ol className={`${styles.lines} no-print`} ref={list}>
      {lines.map(({ id, title, body, now, standing }, index) => {
        const { status, fallen, carried } = standing;
        const isOpen = id === open;
        const next = lines[index + 1];
        return (
          <li key={id} className={styles.line}>
            <h3>
              <button
                type="button"
                className={styles.opener}
                aria-expanded={isOpen}
                aria-controls={`line-${id}`}
                onClick={() => choose(isOpen ? null : id)}
              >
                <span>{title}</span>
                <span className={styles.state}>
                  {status !== null
                    ? `${SIGNS[status]} ${words[status]}${carried === null ? "" : ", carried over"}`
                    : fallen.length > 0
                      ? "! Look again"
                      : "☐ Open"}
                </span>
              </button>
            </h3>
            <div id={`line-${id}`} hidden={!isOpen}>
              {isOpen && (
                <>
                  {body}
                  <FindingTiles
                    id={id}
                    title={title}
                    words={words}
                    standing={standing}
                    now={now}
                    kind={kind}
                    onFind={(finding) => {
                      choose(id);
                      onFind(id, finding);
                    }}
                  />
                  {next && (
                    <p className="button-row">
                      <Button onClick={() => goTo(next.id)}>Next: {next.title}</Button>
                    </p>
                  )}
                </>
              )}
            </div>
          </li>
        );
      })}
    </ol>
  );
}
