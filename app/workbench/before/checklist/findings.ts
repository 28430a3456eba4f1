/** What a team found of each line, by revision. A finding falls when the numbers it stood on change. Pure. */
import { changedSince, type Stood } from "@/lib/inspection";

export const STATUSES = ["looked", "to-do", "none"] as const;
export type Status = (typeof STATUSES)[number];

export interface Finding {
  status: Status | null;
  note: string;
  /** The numbers it stood on. */
  stood: Stood;
}

/** By line. */
export type Findings = Readonly<Record<string, Finding>>;

export const NO_FINDING: Finding = { status: null, note: "", stood: {} };

export interface Standing extends Finding {
  /** Paths of the numbers that changed since it was ticked: then it has no status any more. */
  fallen: readonly string[];
}

/** A finding as it counts with the numbers of now. What is still to do stays to do. */
export function standingOf(finding: Finding | undefined, now: Stood): Standing {
  const found = finding ?? NO_FINDING;
  if (found.status === null || found.status === "to-do") return { ...found, fallen: [] };
  const fallen = changedSince(found.stood, now);
  return fallen.length > 0 ? { ...found, status: null, fallen } : { ...found, fallen };
}

/** Of every revision, as kept; what is not ours is left behind. */
export function findingsFromText(text: string | null): Record<string, Findings> {
  try {
    const kept = JSON.parse(text ?? "null");
    if (typeof kept !== "object" || kept === null || Array.isArray(kept)) return {};
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
            },
          ]),
        ),
      ]),
    );
  } catch {
    return {};
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
