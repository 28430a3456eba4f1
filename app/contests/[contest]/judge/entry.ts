/** A judge's entry while it is typed: from fields to the API's fix, and what it would come to. Pure. */

import { positionText, readPosition } from "@/app/_ui/position";
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import { check } from "@/lib/api/check";
import type { JudgeView } from "@/lib/api/contracts";
import { roundMark } from "@/lib/scoring";
import { type Fix, type FixOutcome, fixSchema, locate } from "@/lib/survey";
import { formatQuantity, type UnitSystem } from "@/lib/units";

export type JudgeShot = JudgeView["shots"][number];

export interface Draft {
  outcome: FixOutcome | null;
  method: "bearing-distance" | "position";
  bearing: Quantity;
  north: "true" | "magnetic";
  distance: Quantity;
  position: string;
  /** m, 95 %, when the phone gave the position that stands in the field. */
  accuracy: number | null;
  /** Why an earlier entry is corrected. */
  reason: string;
}

const nothing: Quantity = { text: "", value: null };

export const emptyDraft: Draft = {
  outcome: null,
  method: "bearing-distance",
  bearing: nothing,
  north: "true",
  distance: nothing,
  position: "",
  accuracy: null,
  reason: "",
};

/** An entry brought back into the form, to be sent as a correction of what is there. */
export function draftOf(fix: Fix, reason: string, system: UnitSystem): Draft {
  if (fix.outcome !== "landed") return { ...emptyDraft, outcome: fix.outcome, reason };
  if (fix.method === "position") {
    const { method, accuracy = null } = fix;
    return { ...emptyDraft, outcome: "landed", method, position: positionText(fix), accuracy, reason };
  }
  // A method that this form does not have is measured anew by one that it has.
  if (fix.method !== "bearing-distance") return { ...emptyDraft, outcome: "landed", reason };
  return {
    ...emptyDraft,
    outcome: "landed",
    method: fix.method,
    bearing: quantityOf(fix.bearing, "angle", system),
    north: fix.north,
    distance: quantityOf(fix.distance, "distance", system),
    reason,
  };
}

/** Complaints by field of the form. */
export type Complaints = Partial<Record<"outcome" | "bearing" | "distance" | "position" | "reason", string>>;

export interface Outcome {
  /** m, rounded down to the centimetre as it will count; null when nothing landed. */
  mark: number | null;
  /** Expanded, k = 2, m. */
  uncertainty: number | null;
  /** Degrees true from the firing point. */
  bearing: number | null;
  warnings: string[];
}

export type Reading = { ok: true; fix: Fix; outcome: Outcome } | { ok: false; complaints: Complaints };

/** What is typed as a fix, or what is still missing. */
export function readDraft(
  draft: Draft,
  shot: JudgeShot,
  declination: number,
  correcting: boolean,
  system: UnitSystem,
): Reading {
  const complaints: Complaints = {};
  if (correcting && draft.reason.trim().length < 3) {
    complaints.reason = "Reason: say why the earlier entry is corrected.";
  }
  if (draft.outcome === null) complaints.outcome = "Outcome: choose what happened.";
  const checked = draft.outcome === null ? null : check(fixSchema, fixOf(draft, declination, complaints));
  if (checked && !checked.ok && Object.keys(complaints).length === 0) {
    for (const { field, message } of checked.errors) complaints[formField(field)] = message;
  }
  if (!checked?.ok || Object.keys(complaints).length > 0) return { ok: false, complaints };
  return { ok: true, fix: checked.value, outcome: outcomeOf(checked.value, shot, system) };
}

/** The field of the form that shows a complaint about a path of the fix or of the whole request. */
export function formField(path: string): keyof Complaints {
  const name = path.replace(/^fix\./, "");
  if (name === "bearing" || name === "declination" || name === "bearingUncertainty") return "bearing";
  if (name === "distance" || name === "distanceUncertainty") return "distance";
  if (name === "latitude" || name === "longitude" || name === "accuracy") return "position";
  return name === "reason" ? "reason" : "outcome";
}

function fixOf(draft: Draft, declination: number, complaints: Complaints): unknown {
  if (draft.outcome !== "landed") return { outcome: draft.outcome };
  if (draft.method === "bearing-distance") {
    if (draft.bearing.value === null) complaints.bearing = "Bearing: enter it in degrees, such as 087.5.";
    if (draft.distance.value === null) complaints.distance = "Distance: enter it from the firing point.";
    return {
      outcome: "landed",
      method: draft.method,
      bearing: draft.bearing.value,
      north: draft.north,
      ...(draft.north === "magnetic" ? { declination } : {}),
      distance: draft.distance.value,
    };
  }
  const read = readPosition(draft.position);
  if (!read.ok) {
    complaints.position = read.message;
    return {};
  }
  return {
    outcome: "landed",
    method: draft.method,
    ...read.position,
    ...(draft.accuracy === null ? {} : { accuracy: draft.accuracy, accuracyLevel: 95 }),
  };
}

/** "132.44 m", or the outcome when nothing counts. */
export function resultOf(fix: Fix, shot: JudgeShot, system: UnitSystem): string {
  const { mark } = outcomeOf(fix, shot, system);
  return mark === null ? fix.outcome : formatQuantity(mark, "distance", system, { digits: 2 });
}

function outcomeOf(fix: Fix, shot: JudgeShot, system: UnitSystem): Outcome {
  const located = locate(fix, shot.firingPoint);
  if (!located) return { mark: null, uncertainty: null, bearing: null, warnings: [] };
  const mark = roundMark(located.mark);
  const text = (metres: number) => formatQuantity(metres, "distance", system, { digits: 0 });
  const off = Math.abs(((located.bearing - shot.bearing + 540) % 360) - 180);
  const worst = off <= 90 ? shot.worstForward : shot.worstBackward;
  const warnings: string[] = [];
  if (worst !== null && located.mark > worst) {
    warnings.push(
      `This is beyond the worst throw computed for this machine, ${text(worst)}. Measure again; if it holds, ` +
        "tell the safety officer at once: the keep-out zone may be too small.",
    );
  }
  if (shot.lastMark !== null && located.mark > 2 * shot.lastMark) {
    warnings.push(`This is more than twice this team's last mark, ${text(shot.lastMark)}. Check the number.`);
  }
  if (off > 90 && located.mark > 0) {
    warnings.push("This lies behind the firing point. Check the bearing.");
  }
  return { mark, uncertainty: located.uncertainty, bearing: located.bearing, warnings };
}
