"use client";
/** Lines one below the other, one of them open: what to look at and why, four large answers, a note, the way to the next. */
import { useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { TextField } from "@/app/_ui/field";
import { figuresText } from "@/app/workbench/before/checklist/figures-text";
import { FINDINGS, type Figure, type Finding, type Line, needsNote } from "@/lib/inspection";
import type { UnitSystem } from "@/lib/units";
import { FINDING_WORDS } from "../../words";
import type { LineState } from "./draft";
import styles from "./inspect.module.css";

export interface InspectedLine {
  line: Line;
  numbers: Figure[];
  state: LineState;
}

const SIGNS: Record<Finding, string> = { meets: "✓", limit: "!", fails: "✗", "not-applicable": "–" };

function stateText({ finding, changed, settled }: LineState): string {
  if (changed) return "! Look again";
  if (finding === null) return "☐ Open";
  return settled ? `${SIGNS[finding]} ${FINDING_WORDS[finding]}` : "! Write a note";
}

export function InspectLines({
  lines,
  system,
  onAnswer,
}: {
  lines: readonly InspectedLine[];
  system: UnitSystem;
  /** `finding` null: only the note is another. */
  onAnswer: (line: Line, finding: Finding | null, note: string) => void;
}) {
  const list = useRef<HTMLOListElement>(null);
  /** Null when all are closed; undefined until somebody has chosen: then the first that is open. */
  const [chosen, choose] = useState<string | null>();
  const first = lines.find(({ state }) => !state.settled)?.line.id ?? null;
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
    <ol className={styles.lines} ref={list}>
      {lines.map(({ line, numbers, state }, index) => {
        const { id, title, look, reason } = line;
        const isOpen = id === open;
        const next = lines[index + 1]?.line;
        const figures = figuresText(numbers, system);
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
                <span className={styles.state}>{stateText(state)}</span>
              </button>
            </h3>
            <div id={`line-${id}`} hidden={!isOpen}>
              {isOpen && (
                <>
                  <p>{look}</p>
                  <p className={styles.why}>Why: {reason}</p>
                  {figures && <p>{figures}</p>}
                  <ChoiceTiles
                    id={`finding-${id}`}
                    legend={<span className="aloud">{title}</span>}
                    choices={FINDINGS.map((value) => ({ value, label: FINDING_WORDS[value] }))}
                    value={state.finding}
                    onChange={(finding) => {
                      choose(id);
                      onAnswer(line, finding, state.note);
                    }}
                  />
                  {(state.finding !== null || state.note !== "") && (
                    <TextField
                      id={`note-${id}`}
                      label={
                        <>
                          {state.finding === "limit"
                            ? "What was found, and the limit"
                            : state.finding === "fails"
                              ? "What was found"
                              : state.finding === "not-applicable"
                                ? "Why it does not apply"
                                : "Note"}
                          <span className="aloud">: {title}</span>
                        </>
                      }
                      optional={state.finding === null || !needsNote(state.finding)}
                      maxLength={500}
                      value={state.note}
                      onChange={(event) => onAnswer(line, null, event.target.value)}
                    />
                  )}
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
