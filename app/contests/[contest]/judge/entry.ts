/** A judge's entry while it is typed: from fields to the API's fix, and what it would come to. Pure. */
import { check } from "@/lib/api/check";
import type { ControlPointInfo, JudgeView } from "@/lib/api/contracts";
import { turnOf } from "@/lib/earth/bearing";
import { type Fix, fixSchema, type Located, type Mark, markOf, measure, type Site } from "@/lib/survey";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { type Complaints, type Draft, fieldsOf, hasPosition, POSITION, rawOf } from "./draft";

export type JudgeShot = JudgeView["shots"][number];

/** What the fields of a measurement ask of whatever was thrown. */
export type Stand = Pick<JudgeShot, "firingPointNumber" | "bearing" | "lastMark"> & {
  firingPoint: Pick<JudgeShot["firingPoint"], "latitude" | "longitude" | "height" | "accuracy">;
};

/** What measurements of a whole contest hang on. */
export interface Range {
  pegs: readonly ControlPointInfo[];
  /** Degrees, east positive. */
  declination: number;
  /** From landing point to mark. */
  marking: JudgeView["markRule"];
}

export const rangeOf = ({ contest, controlPoints, markRule }: JudgeView): Range => ({
  pegs: controlPoints,
  declination: contest.declination,
  marking: markRule,
});

export const siteOf = (shot: JudgeShot, { pegs, declination }: Range): Site => ({
  // A machine stands anywhere within the accuracy: evenly over that disc, half of it is the standard along an axis.
  firingPoint: { ...shot.firingPoint, uncertainty: shot.firingPoint.accuracy / 2 },
  pegs: Object.fromEntries(pegs.map((peg) => [peg.id, { ...peg, uncertainty: peg.accuracy }])),
  declination,
  centreline: shot.bearing,
});

export interface Outcome {
  /** m, by the contest's rule; null when nothing landed, no point comes out, or it is not what the rule counts. */
  mark: number | null;
  /** What the mark is made of; null without a point. */
  made: Mark | null;
  located: Located | null;
  warnings: string[];
}

export type Reading = { ok: true; fix: Fix; outcome: Outcome } | { ok: false; complaints: Complaints };

/** What is typed as a fix, or what is still missing. */
export function readDraft(
  draft: Draft,
  shot: JudgeShot,
  range: Range,
  correcting: boolean,
  system: UnitSystem,
): Reading {
  const complaints: Complaints = {};
  if (correcting && draft.reason.trim().length < 3) {
    complaints.reason = "Reason: say why the earlier entry is corrected.";
  }
  if (draft.outcome === null) complaints.outcome = "Outcome: choose what happened.";
  const raw = fixOf(draft, range, system, complaints);
  const checked = draft.outcome === null ? null : check(fixSchema, raw);
  if (checked && !checked.ok) {
    for (const { field, message } of checked.errors) complaints[formField(field, draft)] ??= message;
  }
  if (!checked?.ok || Object.keys(complaints).length > 0) return { ok: false, complaints };
  return { ok: true, fix: checked.value, outcome: outcomeOf(checked.value, shot, range, system) };
}

function fixOf(draft: Draft, { declination }: Range, system: UnitSystem, complaints: Complaints): unknown {
  const { outcome, method, values } = draft;
  if (outcome !== "landed") return { outcome };
  return {
    outcome,
    method,
    ...rawOf(fieldsOf(method), values[method] ?? {}, declination, system, complaints),
  };
}

/** The field of the form that shows a complaint about a path of the fix or of the whole request. */
export function formField(path: string, { outcome, method }: Draft): string {
  const name = path.replace(/^fix\./, "");
  if (name === "reason") return name;
  if (outcome !== "landed") return "outcome";
  const fields = fieldsOf(method);
  const first = name.split(".")[0] ?? "";
  if (hasPosition(fields) && (first === "latitude" || first === "longitude")) return POSITION;
  if (first === "declination") return "bearing";
  return fields.some((field) => field.name === first) ? name : "outcome";
}

/** "132.44 m", or the outcome when nothing counts. */
export function resultOf(fix: Fix, shot: JudgeShot, range: Range, system: UnitSystem): string {
  const { mark } = outcomeOf(fix, shot, range, system);
  if (mark !== null) return formatQuantity(mark, "distance", system, { digits: 2 });
  return fix.outcome === "landed" ? "landed, not located" : fix.outcome;
}

/** The arc's centre counts where it was when the rule was set, wherever its peg stands now. */
function markBy(located: Located, shot: JudgeShot, range: Range): Mark {
  const { rule, centre } = range.marking;
  const site = siteOf(shot, range);
  const pegs = rule.from === "arc" && centre ? { ...site.pegs, [rule.centre]: centre } : site.pegs;
  return markOf(located, rule, { ...site, ...(pegs && { pegs }) });
}

function outcomeOf(fix: Fix, shot: JudgeShot, range: Range, system: UnitSystem): Outcome {
  const { located, warnings: told } = measure(fix, siteOf(shot, range));
  const warnings = told.map(({ text }) => text);
  if (!located) return { mark: null, made: null, located, warnings };
  const made = markBy(located, shot, range);
  warnings.push(...made.warnings.map(({ text }) => text));
  const text = (metres: number) => formatQuantity(metres, "distance", system, { digits: 0 });
  const off = Math.abs(turnOf(shot.bearing, located.bearing));
  const worst = off <= 90 ? shot.worstForward : shot.worstBackward;
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
  return { mark: made.mark, made, located, warnings };
}
