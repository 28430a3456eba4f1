/**
 * From shots, their current fixes and the officials' rulings to standings. Rules: World Athletics Technical
 * Rules for field events judged by distance (from memory): the best mark ranks, equal bests are split by the
 * second best and so on, and what nothing splits shares its place, so that the next place is skipped.
 *
 * A foul, a misfire and a burst are trials without a mark: each uses up its turn, as a failed trial does in
 * those events. Where a judge grants a new trial, its measurement replaces the fix of the same shot.
 */
import type { MarkUnit } from "../units";
import { compareMarks, roundMark } from "./mark";

export interface ScoredDivision {
  id: string;
  name: string;
  /** Order on the page; equal ones go by name. */
  position?: number;
}

export interface ScoredEntrant {
  id: string;
  number: number;
  name: string;
  divisionId: string;
}

export interface ScoredShot {
  id: string;
  entrantId: string;
  round: number;
  /** The fix that counts; null before the first entry. `mark` in metres, null unless it landed. */
  fix: { outcome: "landed" | "foul" | "misfire" | "burst"; mark: number | null } | null;
  /** Thrown while no firing permit stood: it counts only once it was ruled to stand. */
  unpermitted?: boolean;
}

/** On one entrant (dns, dnf, competing) or one shot (foul, stands); the largest sequence of a subject counts. */
export interface ScoredRuling {
  entrantId: string | null;
  shotId: string | null;
  decision: "dns" | "dnf" | "competing" | "foul" | "stands";
  sequence: number;
}

export interface ScoringInput {
  divisions: readonly ScoredDivision[];
  entrants: readonly ScoredEntrant[];
  /** Numbers of the rounds made; every entrant gets a line for each. */
  rounds: readonly number[];
  shots: readonly ScoredShot[];
  rulings: readonly ScoredRuling[];
  /** To which marks are rounded down; 1 cm if left out. */
  unit?: MarkUnit;
}

/** Why a shot counts or does not: a word for programs; `WHY` has the sentence. */
export type Why =
  | "best"
  | "tie-break"
  | "no-shot"
  | "no-entry"
  | "foul"
  | "ruled-foul"
  | "misfire"
  | "burst"
  | "not-measured"
  | "no-permit"
  | "ruled-dns";

export const WHY: Record<Why, string> = {
  best: "The best mark: it decides the place.",
  "tie-break": "Counts only to split equal bests.",
  "no-shot": "Not in this round's firing order.",
  "no-entry": "Not measured yet.",
  foul: "A foul gives no mark.",
  "ruled-foul": "Ruled a foul: no mark.",
  misfire: "A misfire gives no mark and uses up the turn.",
  burst: "The projectile broke up before landing: no mark.",
  "not-measured": "Landed, but without a measured mark.",
  "no-permit": "Thrown while no firing permit stood: it counts only by a ruling that it stands.",
  "ruled-dns": "Ruled not to have started: nothing counts.",
};

export interface StandingMark {
  round: number;
  shotId: string | null;
  /** After rulings; null before the first entry. */
  outcome: "landed" | "foul" | "misfire" | "burst" | null;
  /** m, rounded down to the contest's unit; null when the shot gives none. */
  mark: number | null;
  /** Whether the mark takes part in the ranking. */
  counts: boolean;
  why: Why;
}

/** NM: shots, but no mark. Waiting: no shot entered yet. DNS and DNF: an official's ruling. */
export type StandingStatus = "ranked" | "waiting" | "NM" | "DNS" | "DNF";

/** What set an entrant apart from those with the same best: the first mark, counted from the best, to differ. */
export interface TieSplit {
  entrantId: string;
  /** 2 for the second best, and so on. */
  place: number;
  /** m; null when there is no such mark. */
  own: number | null;
  other: number | null;
}

export interface Standing {
  /** Shared by those that nothing splits; null without a mark. Who did not finish keeps what was thrown. */
  rank: number | null;
  entrantId: string;
  number: number;
  name: string;
  divisionId: string;
  divisionName: string;
  status: StandingStatus;
  /** m, rounded down to the contest's unit. */
  best: number | null;
  /** By round; one for every round. */
  marks: StandingMark[];
  /** The marks that count, the best first, m. */
  counted: number[];
  /** Against each neighbour in the ranking with the same best that was split from this one. */
  splits: TieSplit[];
}

export interface Standings {
  divisions: { id: string; name: string; rows: Standing[] }[];
  overall: Standing[];
}

type Decision = ScoredRuling["decision"];

/** The newest decision on each subject. */
function newest(rulings: readonly ScoredRuling[], subject: (ruling: ScoredRuling) => string | null) {
  const found = new Map<string, ScoredRuling>();
  for (const ruling of rulings) {
    const id = subject(ruling);
    if (id !== null && ruling.sequence > (found.get(id)?.sequence ?? Number.NEGATIVE_INFINITY)) {
      found.set(id, ruling);
    }
  }
  return new Map([...found].map(([id, ruling]) => [id, ruling.decision] as const));
}

const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

function judged(
  shot: ScoredShot,
  ruling: Decision | undefined,
  dns: boolean,
  unit: MarkUnit | undefined,
): StandingMark {
  const line = { round: shot.round, shotId: shot.id, mark: null, counts: false };
  if (shot.fix === null) return { ...line, outcome: null, why: "no-entry" };
  if (ruling === "foul") {
    return { ...line, outcome: "foul", why: shot.fix.outcome === "foul" ? "foul" : "ruled-foul" };
  }
  const { outcome, mark } = shot.fix;
  if (outcome !== "landed") return { ...line, outcome, why: outcome };
  if (mark === null) return { ...line, outcome, why: "not-measured" };
  const rounded = roundMark(mark, unit);
  if (shot.unpermitted && ruling !== "stands") return { ...line, outcome, mark: rounded, why: "no-permit" };
  return dns
    ? { ...line, outcome, mark: rounded, why: "ruled-dns" }
    : { ...line, outcome, mark: rounded, counts: true, why: "tie-break" };
}

function statusOf(ruling: Decision | undefined, marks: readonly StandingMark[], best: number | null) {
  if (ruling === "dns") return "DNS";
  if (ruling === "dnf") return "DNF";
  if (best !== null) return "ranked";
  return marks.some((mark) => mark.outcome !== null) ? "NM" : "waiting";
}

const STATUS_ORDER: readonly StandingStatus[] = ["ranked", "NM", "DNF", "waiting", "DNS"];

function compare(a: Standing, b: Standing): number {
  const ranked = compareMarks(a.counted, b.counted);
  if (ranked !== 0) return ranked;
  if (a.best === null && a.status !== b.status) {
    return STATUS_ORDER.indexOf(a.status) - STATUS_ORDER.indexOf(b.status);
  }
  return a.number - b.number || byText(a.entrantId, b.entrantId);
}

function splitBetween(row: Standing, other: Standing | undefined): TieSplit[] {
  if (!other || row.best === null || row.best !== other.best) return [];
  const length = Math.max(row.counted.length, other.counted.length);
  for (let index = 1; index < length; index++) {
    const own = row.counted[index] ?? null;
    const others = other.counted[index] ?? null;
    if (own !== others) return [{ entrantId: other.entrantId, place: index + 1, own, other: others }];
  }
  return [];
}

/** Sorts rows and gives them their places. */
function ranked(rows: readonly Standing[]): Standing[] {
  const sorted = [...rows].sort(compare);
  let rank = 0;
  return sorted.map((row, index) => {
    const before = sorted[index - 1];
    if (!before || compareMarks(before.counted, row.counted) !== 0) rank = index + 1;
    const splits = [...splitBetween(row, before), ...splitBetween(row, sorted[index + 1])];
    return { ...row, rank: row.best === null ? null : rank, splits };
  });
}

/**
 * Standings of every division and overall. The order of the input does not matter. Throws RangeError on an
 * entrant of an unknown division and on a mark that is not a distance.
 */
export function standings(input: ScoringInput): Standings {
  const divisionNames = new Map(input.divisions.map(({ id, name }) => [id, name]));
  const ofEntrant = newest(input.rulings, (ruling) => ruling.entrantId);
  const ofShot = newest(input.rulings, (ruling) => ruling.shotId);
  const rounds = [...new Set([...input.rounds, ...input.shots.map((shot) => shot.round)])].sort(
    (a, b) => a - b,
  );

  const rows = input.entrants.map((entrant): Standing => {
    const divisionName = divisionNames.get(entrant.divisionId);
    if (divisionName === undefined) throw new RangeError(`Entrant ${entrant.number} has no known division.`);
    const ruling = ofEntrant.get(entrant.id);
    const own = input.shots
      .filter((shot) => shot.entrantId === entrant.id)
      .sort((a, b) => byText(a.id, b.id));
    const marks = rounds.flatMap((round): StandingMark[] => {
      const shots = own.filter((shot) => shot.round === round);
      return shots.length > 0
        ? shots.map((shot) => judged(shot, ofShot.get(shot.id), ruling === "dns", input.unit))
        : [{ round, shotId: null, outcome: null, mark: null, counts: false, why: "no-shot" }];
    });
    const counted = marks.flatMap(({ counts, mark }) => (counts && mark !== null ? [mark] : []));
    counted.sort((a, b) => b - a);
    const best = counted[0] ?? null;
    const bestMark = marks.find(({ counts, mark }) => counts && mark === best);
    if (bestMark) bestMark.why = "best";
    return {
      rank: null,
      entrantId: entrant.id,
      number: entrant.number,
      name: entrant.name,
      divisionId: entrant.divisionId,
      divisionName,
      status: statusOf(ruling, marks, best),
      best,
      marks,
      counted,
      splits: [],
    };
  });

  const divisions = [...input.divisions].sort(
    (a, b) => (a.position ?? 0) - (b.position ?? 0) || byText(a.name, b.name) || byText(a.id, b.id),
  );
  return {
    divisions: divisions.map(({ id, name }) => ({
      id,
      name,
      rows: ranked(rows.filter((row) => row.divisionId === id)),
    })),
    overall: ranked(rows),
  };
}
