/** An inspection that is under way, kept on this device until the server has it. */
import type { Quantity } from "@/app/_ui/quantity-field";
import { changedSince, type Finding, type Line, needsNote, type Stood, stoodOn } from "@/lib/inspection";
import type { Declaration } from "@/lib/throw";
import { loadTyped, saveTyped } from "../../../judge/drafts";

export interface InspectedRevision {
  id: string;
  number: number;
  declaration: Declaration;
}

export interface Answered {
  finding: Finding | null;
  note: string;
  /** The numbers that the finding stands on. */
  stood: Stood;
}

export interface InspectionDraft {
  answers: Record<string, Answered>;
  /** By path into the declaration. */
  measured: Record<string, Quantity>;
  outcome: string | null;
  limits: string;
  /** Of what was written on paper first: local time as the browser's field has it. */
  seenAt: string;
  witness: string;
}

export const EMPTY: InspectionDraft = {
  answers: {},
  measured: {},
  outcome: null,
  limits: "",
  seenAt: "",
  witness: "",
};

const name = (slug: string, machineId: string) => `fairthrow:inspection:${slug}:${machineId}`;
export const loadInspection = (slug: string, machineId: string): InspectionDraft =>
  loadTyped(name(slug, machineId), EMPTY);
export const saveInspection = (slug: string, machineId: string, draft: InspectionDraft | null): void =>
  saveTyped(name(slug, machineId), draft);

/** How a line stands: what was found counts only on the numbers that it was found on. */
export interface LineState {
  finding: Finding | null;
  note: string;
  /** It was found on other numbers: look again. */
  changed: boolean;
  /** Nothing more to do. */
  settled: boolean;
}

export function stateOf(line: Line, answered: Answered | undefined, declaration: Declaration): LineState {
  if (!answered?.finding)
    return { finding: null, note: answered?.note ?? "", changed: false, settled: false };
  const { finding, note, stood } = answered;
  const changed = changedSince(stood, stoodOn(declaration, line.standsOn)).length > 0;
  return {
    finding: changed ? null : finding,
    note,
    changed,
    settled: !changed && (!needsNote(finding) || note.trim() !== ""),
  };
}
