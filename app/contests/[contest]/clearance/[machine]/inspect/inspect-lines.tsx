"use client";
/** What to look at and why, line by line: four large answers and a note. */
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { TextField } from "@/app/_ui/field";
import { figuresText } from "@/app/_ui/inspection/figures-text";
import { UnfoldingLines } from "@/app/_ui/unfolding-lines/unfolding-lines";
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
  return (
    <UnfoldingLines
      first={lines.find(({ state }) => !state.settled)?.line.id ?? null}
      lines={lines.map(({ line, numbers, state }) => ({
        id: line.id,
        title: line.title,
        state: stateText(state),
        body: (stay) => (
          <Answer
            line={line}
            figures={figuresText(numbers, system)}
            state={state}
            onFind={(finding) => {
              stay();
              onAnswer(line, finding, state.note);
            }}
            onNote={(note) => onAnswer(line, null, note)}
          />
        ),
      }))}
    />
  );
}

/** What the note says, by what was found. */
const NOTES: Record<Finding, string> = {
  meets: "Note",
  limit: "What was found, and the limit",
  fails: "What was found",
  "not-applicable": "Why it does not apply",
};

function Answer({
  line: { id, title, look, reason },
  figures,
  state: { finding, note },
  onFind,
  onNote,
}: {
  line: Line;
  figures: string;
  state: LineState;
  onFind: (finding: Finding) => void;
  onNote: (note: string) => void;
}) {
  return (
    <>
      <p>{look}</p>
      <p className={styles.why}>Why: {reason}</p>
      {figures && <p>{figures}</p>}
      <ChoiceTiles
        id={`finding-${id}`}
        legend={<span className="aloud">{title}</span>}
        choices={FINDINGS.map((value) => ({ value, label: FINDING_WORDS[value] }))}
        value={finding}
        onChange={onFind}
      />
      {(finding !== null || note !== "") && (
        <TextField
          id={`note-${id}`}
          label={
            <>
              {NOTES[finding ?? "meets"]}
              <span className="aloud">: {title}</span>
            </>
          }
          optional={finding === null || !needsNote(finding)}
          maxLength={500}
          value={note}
          onChange={(event) => onNote(event.target.value)}
        />
      )}
    </>
  );
}
