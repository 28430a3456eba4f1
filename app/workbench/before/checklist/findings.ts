/** What a team found of each line, by revision. A finding falls when the numbers it stood on change. Pure. */
import { changedSince, type Stood } from "@/lib/inspection";

export const STATUSES = ["looked", "to-do", "none"] as const;
export type Status = (typeof STATUSES)[number];

export interface Finding {
  status: Status | null;
  note: string;
  /** The numbers it stood on. */
  stood: Stood;
  /** The name of the revision on which it was found: nobody has looked again since that one was copied. */
  from?: string;
}

/** By line. */
export type Findings = Readonly<Record<string, Finding>>;

export const NO_FINDING: Finding = { status: null, note: "", stood: {} };

export interface Standing extends Omit<Finding, "from"> {
  /** The revision on which it was found, while nobody has looked again. */
  carried: string | null;
  /** Paths of the numbers that changed since it was ticked: then it has no status any more. */
  fallen: readonly string[];
}

/** A finding as it counts with the numbers of now. What is still to do stays to do. */
export function standingOf(finding: Finding | undefined, now: Stood): Standing {
  const found = finding ?? NO_FINDING;
  const { from = null, ...own } = found;
  if (own.status === null || own.status === "to-do") return { ...own, carried: null, fallen: [] };
  const fallen = changedSince(own.stood, now);
  return fallen.length > 0
    ? { ...own, status: null, carried: null, fallen }
    : { ...own, carried: from, fallen };
}

/** Those of a revision that was copied, for the copy. What is still to do is to do there too. */
export const carried = (findings: Findings, from: string): Findings =>
  Object.fromEntries(
    Object.entries(findings).map(([line, finding]) => [
      line,
      finding.status === null || finding.status === "to-do"
        ? finding
        : { ...finding, from: finding.from ?? from },
    ]),
  );

/** Of every revision, as kept; what is not ours is left behind. Null where the text is none of ours. */
export function findingsFromText(text: string | null): Record<string, Findings> | null {
  try {
    const kept = JSON.parse(text ?? "{}");
    if (typeof kept !== "object" || kept === null || Array.isArray(kept)) return null;
    return Object.fromEntries(
      Object.entries(kept as Record<string, unknown>).map(([revision, lines]) => [
        revision,
        Object.fromEntries(
          Object.entries((lines ?? {}) as Record<string, Partial<Finding>>).map(([line, finding]) => [
            line,
            {
              status: STATUSES.find((each) => each === finding?.status) ?? null,
              note: typeof finding?.note === "string" ? finding.note.slice(0, 300) : "",
              stood: typeof finding?.stood === "object" && finding.stood !== null ? finding.stood : {},
              ...(typeof finding?.from === "string" ? { from: finding.from.slice(0, 500) } : {}),
            },
          ]),
        ),
      ]),
    );
  } catch {
    return null;
  }
}

/** With one finding changed; of revisions that are no longer on the bench nothing is kept. */
export function withFinding(
  all: Readonly<Record<string, Findings>>,
  onBench: readonly string[],
  revision: string,
  line: string,
  finding: Finding,
): Record<string, Findings> {
  const left = Object.entries(all).filter(([id]) => onBench.includes(id));
  return { ...Object.fromEntries(left), [revision]: { ...all[revision], [line]: finding } };
}
