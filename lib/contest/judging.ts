/**
 * What the entries and rulings of a shot come to by the contest's mark rule. Nothing of it is stored: a fix keeps what
 * was measured with its budget, and marks follow from that, so another rule or one more fix needs no row rewritten.
 */
import type { ShotResult } from "../api/contracts";
import {
  combine,
  type Fix,
  type Located,
  locate,
  type Mark,
  type MarkRule,
  markOf,
  type Peg,
} from "../survey";
import type { ContestRow } from "./find";

/** The rule as it was set, with the place that its arc's centre had then: a peg moved later moves no mark. */
export interface Marking {
  rule: MarkRule;
  centre: Peg | null;
  /** When marks that were there already were made anew, ISO; null when none was. */
  remadeAt: string | null;
}

const USUAL: MarkRule = { from: "firing-point", landing: "first-impact", sector: null, unit: "1cm" };

export function markingOf(contest: Pick<ContestRow, "markRule">): Marking {
  return contest.markRule === null
    ? { rule: USUAL, centre: null, remadeAt: null }
    : (JSON.parse(contest.markRule) as Marking);
}

export interface Place {
  latitude: number;
  longitude: number;
  height: number;
  accuracy: number;
}

/** A peg's accuracy is its standard uncertainty along each axis. */
export const pegOf = ({ name, latitude, longitude, height, accuracy }: Place & { name: string }): Peg => ({
  name,
  latitude,
  longitude,
  height,
  uncertainty: accuracy,
});

/** A machine may stand anywhere within the accuracy: evenly over that disc, half of it is the standard along an axis. */
export const firingPointOf = ({ latitude, longitude, height, accuracy }: Place) => ({
  latitude,
  longitude,
  height,
  uncertainty: accuracy / 2,
});

/** The site that a mark needs: where it counts from. */
const siteOf = (place: Place, { rule, centre }: Marking) => ({
  firingPoint: firingPointOf(place),
  ...(rule.from === "arc" && centre && { pegs: { [rule.centre]: centre } }),
});

export const markBy = (located: Located, place: Place, marking: Marking): Mark =>
  markOf(located, marking.rule, siteOf(place, marking));

/** An entry without what was measured: enough to say which ones count. */
export interface ShortFix {
  id: string;
  outcome: string;
  replacesId: string | null;
  sequence: number;
}
export interface JudgedFix extends ShortFix {
  /** JSON list: what looked odd when it was entered. */
  flags: string;
  input: string;
  located: string | null;
}
export interface JudgedRuling {
  decision: string;
  fixId: string | null;
  sequence: number;
}
export interface JudgedShot<F extends ShortFix = JudgedFix> {
  firingPoint: Place;
  fixes: readonly F[];
  rulings: readonly JudgedRuling[];
}

/** What was measured. Entries from before it was kept were all measured from their own firing point. */
export function locatedOf(
  fix: Pick<JudgedFix, "located" | "outcome" | "input">,
  place: Place,
): Located | null {
  if (fix.outcome !== "landed") return null;
  if (fix.located !== null) return JSON.parse(fix.located) as Located;
  return locate(JSON.parse(fix.input) as Fix, firingPointOf(place));
}

/** The last correction of an entry, or itself. */
export function latestOf<F extends ShortFix>(fixes: readonly F[], id: string): F | undefined {
  const next = fixes.find((fix) => fix.replacesId === id);
  return next ? latestOf(fixes, next.id) : fixes.find((fix) => fix.id === id);
}

/** When the first entry of a chain of corrections came. */
function rootSequence(fixes: readonly ShortFix[], fix: ShortFix): number {
  const before = fixes.find(({ id }) => id === fix.replacesId);
  return before ? rootSequence(fixes, before) : fix.sequence;
}

/**
 * Sequence of the re-throw in force, or −1. What was entered before it counts no more. It is taken back by a "stands"
 * that follows before anything was entered anew.
 */
export function rethrowOf({ fixes, rulings }: Pick<JudgedShot<ShortFix>, "fixes" | "rulings">): number {
  const ordered = [...rulings].sort((a, b) => a.sequence - b.sequence);
  return ordered.reduce((force, ruling, index) => {
    if (ruling.decision !== "re-throw") return force;
    const back = ordered.slice(index + 1).find(({ decision }) => decision === "stands");
    const thrown = fixes.some(
      (fix) => fix.sequence > ruling.sequence && back !== undefined && fix.sequence < back.sequence,
    );
    return back && !thrown ? force : ruling.sequence;
  }, -1);
}

/** The entries that no correction replaces and no re-throw made void, in the order given. */
export function currentFixes<F extends ShortFix>(shot: Pick<JudgedShot<F>, "fixes" | "rulings">): F[] {
  const replaced = new Set(shot.fixes.map(({ replacesId }) => replacesId));
  const since = rethrowOf(shot);
  return shot.fixes.filter((fix) => !replaced.has(fix.id) && rootSequence(shot.fixes, fix) > since);
}

/** The newest ruling in force on a shot; a re-throw ends those before it. */
export function rulingInForce<R extends JudgedRuling>(
  shot: Pick<JudgedShot<ShortFix>, "fixes"> & { rulings: readonly R[] },
): R | null {
  const since = rethrowOf(shot);
  return shot.rulings.reduce<R | null>(
    (newest, one) => (one.sequence > since && one.sequence > (newest?.sequence ?? -1) ? one : newest),
    null,
  );
}

const NOTHING: ShotResult = {
  how: "none",
  outcome: null,
  mark: null,
  uncertainty: null,
  bearing: null,
  latitude: null,
  longitude: null,
  sector: null,
  fixIds: [],
  unpermitted: false,
  text: null,
};

/** What a shot comes to, before any ruling of a foul. */
export function resultOf(shot: JudgedShot, marking: Marking): ShotResult {
  const result = measuredResult(shot, marking);
  const counting = shot.fixes.filter(({ id }) => result.fixIds.includes(id));
  return { ...result, unpermitted: counting.some(({ flags }) => flags.includes(`"${NO_PERMIT}"`)) };
}

/** The flag of an entry that was thrown while no permit stood. */
export const NO_PERMIT = "no-permit";

function measuredResult(shot: JudgedShot, marking: Marking): ShotResult {
  const all = currentFixes(shot);
  const named = rulingInForce(shot)?.fixId;
  const chosen = named ? latestOf(shot.fixes, named) : undefined;
  const ruled = chosen !== undefined && all.includes(chosen);
  const current = ruled ? [chosen] : all;
  const [first] = current;
  if (!first) return NOTHING;
  const fixIds = current.map(({ id }) => id);
  const outcome = first.outcome as NonNullable<ShotResult["outcome"]>;
  const how = ruled ? "ruled" : current.length === 1 ? "one" : "combined";
  if (current.some((fix) => fix.outcome !== outcome))
    return {
      ...NOTHING,
      how: "disagree",
      fixIds,
      text: "One entry says that it landed fairly and another that it did not: rule which entry counts, or correct one.",
    };
  if (outcome !== "landed") return { ...NOTHING, how, outcome, fixIds };

  const points = current.flatMap((fix) => {
    const located = locatedOf(fix, shot.firingPoint);
    return located ? [{ id: fix.id, located }] : [];
  });
  const { landing } = marking.rule;
  const asked = points.filter(({ located }) => located.landing === undefined || located.landing === landing);
  const counting = asked.length > 0 ? asked : points;
  if (counting.length === 0) return { ...NOTHING, how, outcome, fixIds };
  const ids = counting.map(({ id }) => id);
  const combined = combine(
    counting.map(({ located }) => located),
    siteOf(shot.firingPoint, marking),
  );
  const { located } = combined;
  if (!located) {
    const text = combined.warnings.findLast(({ code }) => code === "fixes-disagree")?.text ?? null;
    return { ...NOTHING, how: "disagree", fixIds: ids, text };
  }
  const { mark, uncertainty, bearing, sector, warnings } = markBy(located, shot.firingPoint, marking);
  const { latitude, longitude } = located.point;
  return {
    ...NOTHING,
    how: ruled ? "ruled" : counting.length === 1 ? "one" : "combined",
    outcome,
    mark,
    uncertainty,
    bearing,
    latitude,
    longitude,
    sector,
    fixIds: ids,
    text: warnings[0]?.text ?? null,
  };
}

/** What the scorebook and the standings take for the outcome: a disagreement is an entry without a mark. */
export const scored = (result: ShotResult) =>
  result.how === "none" ? null : { outcome: result.outcome ?? ("landed" as const), mark: result.mark };
