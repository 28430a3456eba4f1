"use client";
/** One line's tick and note. */
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { TextField } from "@/app/_ui/field";
import { lowerFirst, parameterWords } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import type { Stood } from "@/lib/inspection";
import { type Finding, STATUSES, type Standing, type Status } from "./findings";

export type StatusWords = Readonly<Record<Status, string>>;

export function FindingTiles({
  id,
  title,
  words,
  standing,
  now,
  kind,
  onFind,
}: {
  id: string;
  title: string;
  words: StatusWords;
  standing: Standing;
  /** The numbers that a new tick stands on. */
  now: Stood;
  kind: string;
  onFind: (finding: Finding) => void;
}) {
  const { status, note, fallen, carried } = standing;
  return (
    <>
      {fallen.length > 0 && (
        <Notice title="The numbers changed since: look again" live>
          <p>{changedText(fallen, kind)}</p>
        </Notice>
      )}
      {carried !== null && status !== null && (
        <Notice title={`Carried over from “${carried || "a revision without a name"}”: look again`}>
          <p>
            There: {lowerFirst(words[status])}. Its numbers are the same here. What you choose now is of this
            revision.
          </p>
        </Notice>
      )}
      <ChoiceTiles
        id={`finding-${id}`}
        legend={<span className="aloud">{title}</span>}
        choices={STATUSES.map((value) => ({ value, label: words[value] }))}
        // Not chosen here yet: whoever looks again taps once.
        value={carried === null ? status : null}
        onChange={(next) => onFind({ status: next, note, stood: now })}
      />
      {(status !== null || note !== "") && (
        <TextField
          id={`note-${id}`}
          label={
            <>
              Note<span className="aloud"> to {lowerFirst(title)}</span>
            </>
          }
          optional
          maxLength={300}
          value={note}
          onChange={(event) =>
            // A note says nothing of the numbers: a fallen tick stays fallen.
            onFind({
              status,
              note: event.target.value,
              stood: fallen.length > 0 ? {} : standing.stood,
              ...(carried === null ? {} : { from: carried }),
            })
          }
        />
      )}
    </>
  );
}

/** "Changed: counterweight, sling length." */
function changedText(paths: readonly string[], kind: string): string {
  const names = paths.map((path) => {
    const [section, name = ""] = path.split(".");
    if (section === "strengths") return "what the part bears";
    const label = lowerFirst(parameterWords(kind, name).label);
    return section === "tolerances" ? `the ± of ${label}` : label;
  });
  return `Changed: ${[...new Set(names)].join(", ")}.`;
}
