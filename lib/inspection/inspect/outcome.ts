/** From the lines of an inspection to its outcome: what may be written down, and what must be said first. */
import type { Machine } from "../../throw";
import { linesFor } from "../checklist/lines";
import type { DeclaredDimension } from "./dimensions";

export const FINDINGS = ["meets", "limit", "fails", "not-applicable"] as const;
export type Finding = (typeof FINDINGS)[number];
export const OUTCOMES_OF_INSPECTION = ["meets", "meets-with-limits", "refused"] as const;
export type InspectionOutcome = (typeof OUTCOMES_OF_INSPECTION)[number];

export interface InspectedLine {
  id: string;
  finding: Finding;
  note: string;
}

export interface Inspected {
  lines: readonly InspectedLine[];
  outcome: InspectionOutcome;
  limits: string;
}

/** The best that an inspection can come to by its lines and by what was measured. */
export function bestOutcome(
  lines: readonly InspectedLine[],
  off: readonly DeclaredDimension[],
): InspectionOutcome {
  if (off.length > 0 || lines.some(({ finding }) => finding === "fails")) return "refused";
  return lines.some(({ finding }) => finding === "limit") ? "meets-with-limits" : "meets";
}

/** Only what meets the line speaks for itself. */
export const needsNote = (finding: Finding): boolean => finding !== "meets";

export interface Wrong {
  field: string;
  message: string;
}

const rank = (outcome: InspectionOutcome) => OUTCOMES_OF_INSPECTION.indexOf(outcome);

/** All that keeps an inspection from being written down; nothing when it is whole. */
export function whatIsMissing(
  machine: Machine,
  { lines, outcome, limits }: Inspected,
  off: readonly DeclaredDimension[],
): Wrong[] {
  const wrong: Wrong[] = [];
  const asked = linesFor(machine);
  lines.forEach(({ id, finding, note }, index) => {
    const line = asked.find((each) => each.id === id);
    const say = (name: string, message: string) => wrong.push({ field: `lines.${index}.${name}`, message });
    if (!line) say("id", `No line of this kind of machine is called "${id}".`);
    else if (lines.findIndex((each) => each.id === id) !== index)
      say("id", `${line.title} stands twice: answer each line once.`);
    else if (needsNote(finding) && note === "")
      say(
        "note",
        finding === "not-applicable"
          ? `${line.title}: say why this line does not apply.`
          : `${line.title}: say what was found${finding === "limit" ? ", and what the limit is" : ""}.`,
      );
  });
  const missing = asked.filter(({ id }) => !lines.some((line) => line.id === id));
  if (missing.length > 0)
    wrong.push({
      field: "lines",
      message: `Not looked at yet: ${missing.map(({ title }) => title).join(", ")}.`,
    });
  const best = bestOutcome(lines, off);
  if (rank(outcome) < rank(best))
    wrong.push({
      field: "outcome",
      message:
        off.length > 0
          ? `${off.map(({ label }) => label).join(", ")}: measured outside the declared tolerance. Make a new revision as measured and go on with that, or refuse the machine.`
          : best === "refused"
            ? "A line fails: refuse the machine, or inspect it again once that is put right."
            : "A line meets with a limit only: the machine meets it with limits, or is refused.",
    });
  if (outcome !== "meets" && limits === "")
    wrong.push({
      field: "limits",
      message:
        outcome === "refused" ? "Write why it is refused." : "Write the limits under which it meets it.",
    });
  return wrong;
}
