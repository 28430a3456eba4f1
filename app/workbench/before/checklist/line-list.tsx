"use client";
/** Lines that a team ticks: its words, its tick and note, and the way to the next. */
import type { ReactNode } from "react";
import { UnfoldingLines } from "@/app/_ui/unfolding-lines/unfolding-lines";
import type { Stood } from "@/lib/inspection";
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

function stateText({ status, fallen, carried }: Standing, words: StatusWords): string {
  if (status !== null) return `${SIGNS[status]} ${words[status]}${carried === null ? "" : ", carried over"}`;
  return fallen.length > 0 ? "! Look again" : "☐ Open";
}

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
  const first =
    lines.find(({ standing }) => standing.status === null || standing.carried !== null)?.id ?? null;
  return (
    <UnfoldingLines
      className="no-print"
      first={first}
      lines={lines.map(({ id, title, body, now, standing }) => ({
        id,
        title,
        state: stateText(standing, words),
        body: (stay) => (
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
                stay();
                onFind(id, finding);
              }}
            />
          </>
        ),
      }))}
    />
  );
}
