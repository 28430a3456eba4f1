/**
 * The way of one landing point: contract, who may, already here?, survey, scoring, scorebook and rows in one
 * transaction; the live feed hears of it when that commits.
 */
import { type FixAnswer, type FixRequest, fixRequest, type SiteGeometry } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { inverse, turnOf } from "../earth";
import { type Located, measure } from "../survey";
import type { HazardSheet } from "../throw";
import { conflict, invalid, notFound, parse } from "./errors";
import { contestBySlug, type PlainShot, plainShotIn } from "./find";
import { inside } from "./inside";
import {
  currentFixes,
  firingPointOf,
  latestOf,
  type Marking,
  markBy,
  markingOf,
  pegOf,
  resultOf,
} from "./judging";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { fixInfo, lastMark, type ShotRow } from "./shots";
import { answeredBefore, type Call, committed, type Reply } from "./write";

/** A clock that runs ahead of the server's by more than this is taken for a slip, ms. */
const AHEAD = 10 * 60_000;

/** Records where a shot landed, or corrects what was recorded. Judges. */
export async function recordFix(
  call: Call,
  slug: string,
  shotId: string,
  body: unknown,
): Promise<Reply<FixAnswer>> {
  // The contract.
  const entry = parse(fixRequest, body);

  // Who may?
  const contest = await contestBySlug(call.db, slug);
  const { actor } = call;
  mustBeAllowed(actor, "record a fix", contest.id);

  // Already here?
  const request = { act: "fix", shotId, entry };
  const before = await answeredBefore<FixAnswer>(call, request);
  if (before) return before;

  // Survey: the fix becomes a point, its covariance and a distance; scoring makes that a mark.
  const shot = await plainShotIn(call.db, contest.id, shotId);
  const pegs = await call.db.controlPoint.findMany({ where: { contestId: contest.id } });
  const { located, warnings } = measure(entry.fix, {
    firingPoint: firingPointOf(shot.firingPoint),
    pegs: Object.fromEntries(pegs.map((peg) => [peg.id, pegOf(peg)])),
    declination: contest.declination,
    centreline: shot.bearing,
  });
  const marking = markingOf(contest);
  const odd = [...warnings, ...(located ? await oddities(call.db, shot, located, marking) : [])];

  // Rows and scorebook entry, in one transaction.
  return committed(call, contest.id, request, async (tx, book) => {
    const before = await tx.fix.findMany({ where: { shotId }, include: { badge: true } });
    mustFollow(before, shot, entry, marking);
    await mustStandStill(tx, shot);
    const flags = [...odd, ...another(before, shot, entry, marking)];
    const mark = located && markBy(located, shot.firingPoint, marking);
    const fix = await tx.fix.create({
      data: {
        id: newId(),
        shotId,
        outcome: entry.fix.outcome,
        method: entry.fix.outcome === "landed" ? entry.fix.method : null,
        input: JSON.stringify(entry.fix),
        latitude: located?.point.latitude ?? null,
        longitude: located?.point.longitude ?? null,
        covariance: located && JSON.stringify(located.covariance),
        located: located && JSON.stringify(located),
        mark: mark?.mark ?? null,
        flags: JSON.stringify(flags),
        observedAt: observed(entry, book.at),
        badgeId: actor.badgeId,
        replacesId: entry.replacesId ?? null,
        reason: entry.reason ?? null,
        witness: entry.witness ?? null,
        sequence: book.next,
        createdAt: book.at,
      },
    });
    await book.append(entry.replacesId ? "fix-corrected" : "fix-recorded", fix.id, {
      shot: shotId,
      fix: entry.fix,
      mark: fix.mark,
      uncertainty: mark?.uncertainty ?? null,
      flags: [...flags, ...(mark?.warnings ?? [])].map((flag) => flag.code),
      observedAt: fix.observedAt.toISOString(),
      ...(entry.replacesId && { replaces: entry.replacesId, reason: entry.reason }),
    });
    return fixInfo({ ...fix, badge: actor }, shot.firingPoint, marking);
  });
}

/**
 * A first entry is always another fix of the shot. A correction needs the entry it names to be the newest of its chain;
 * otherwise somebody was faster: theirs stands, and the refusal carries it beside what was sent, so that nothing has to
 * be typed again.
 */
function mustFollow(fixes: ShotRow["fixes"], shot: PlainShot, entry: FixRequest, marking: Marking): void {
  if (entry.replacesId === undefined) return;
  if (!fixes.some((fix) => fix.id === entry.replacesId))
    throw entry.replacesId === shot.id
      ? invalid("replacesId", "Name the entry that is corrected, not its shot.")
      : notFound("entry of this shot to correct");
  const newest = latestOf(fixes, entry.replacesId);
  if (!newest || newest.id === entry.replacesId) return;
  const standing = fixInfo(newest, shot.firingPoint, marking);
  throw conflict(
    "already-corrected",
    `${standing.by} has corrected this entry meanwhile, to ${whatOf(standing)}. Theirs stands and yours was not recorded. If yours is right, send it as a correction of theirs, with the reason.`,
    { current: standing, sent: entry },
  );
}

const whatOf = ({ mark, outcome }: FixAnswer) => (mark === null ? outcome : `${mark.toFixed(2)} m`);

/** Two judges may enter one shot: both are kept and combined. Who enters the second is told of the first. */
function another(
  fixes: ShotRow["fixes"],
  shot: PlainShot,
  entry: FixRequest,
  marking: Marking,
): FixAnswer["flags"] {
  if (entry.replacesId !== undefined) return [];
  const [there] = currentFixes({ fixes, rulings: shot.rulings });
  if (!there) return [];
  const standing = fixInfo(there, shot.firingPoint, marking);
  return [
    {
      code: "another-entry",
      text: `${standing.by} had recorded ${whatOf(standing)} for this shot. Both entries are kept, and combined if they agree. If this one was meant for another shot, correct it.`,
    },
  ];
}

/** Until its first entry a shot goes where its machine is placed; the mark must count from where it is by now. */
async function mustStandStill(tx: DatabaseTransaction, shot: PlainShot): Promise<void> {
  const { latitude, longitude, height, id } = shot.firingPoint;
  const where = { id: shot.id, firingPointId: id, firingPoint: { latitude, longitude, height } };
  if ((await tx.shot.count({ where })) === 0)
    throw conflict(
      "moved",
      "The machine was placed elsewhere while this was entered, and nothing was recorded. Check the firing point and send it again.",
    );
}

/** When something was seen, by whoever noted it; now if nobody did. */
export function observed(entry: Pick<FixRequest, "observedAt">, now: Date): Date {
  if (entry.observedAt === undefined) return now;
  const at = new Date(entry.observedAt);
  if (at.getTime() > now.getTime() + AHEAD)
    throw invalid("observedAt", "This is in the future: set this device's clock, or leave the time out.");
  return at;
}

/** What looks odd is kept and flagged, never refused: an official decides. */
async function oddities(
  db: Database,
  shot: PlainShot,
  located: Located,
  marking: Marking,
): Promise<FixAnswer["flags"]> {
  const { contestId, entrantId, revisionId, firingPoint } = shot;
  const [newest, others, boundaries] = await Promise.all([
    db.hazardSheet.findFirst({
      where: { revisionId },
      orderBy: { createdAt: "desc" },
      select: { result: true },
    }),
    db.shot.findMany({
      where: { contestId, entrantId },
      include: { firingPoint: true, fixes: true, rulings: true },
    }),
    db.siteFeature.findMany({ where: { contestId, kind: "boundary", retired: false } }),
  ]);
  const flags: FixAnswer["flags"] = [];
  const metres = (distance: number) => `${distance.toFixed(1)} m`;

  const worst = newest && (JSON.parse(newest.result) as HazardSheet).worst;
  const turned = Math.abs(turnOf(shot.bearing, located.bearing));
  const forward = turned <= 90;
  const limit = forward ? worst?.forward.distance : worst?.backward.distance;
  if (limit !== undefined && located.mark > limit)
    flags.push({
      code: "beyond-worst",
      text: `${metres(located.mark)} is beyond the worst ${forward ? "forward" : "backward"} throw computed for this machine, ${metres(limit)}. Check the entry. If it is right, the machine is not what was declared or the model is wrong: tell the safety officer before anyone fires again.`,
    });

  const marked = others.map((other) => ({ ...other, mark: resultOf(other, marking).mark }));
  const last = lastMark(marked, shot);
  const { distance } = markBy(located, firingPoint, marking);
  if (last !== null && last > 0 && distance > 2 * last)
    flags.push({
      code: "twice-last-mark",
      text: `${metres(distance)} is more than twice this entrant's last mark, ${metres(last)}. Check the number and its unit.`,
    });

  const rings = boundaries.map((feature) => JSON.parse(feature.geometry) as SiteGeometry);
  if (rings.length > 0 && !rings.some((ring) => inside(located.point, ring)))
    flags.push({
      code: "outside-boundary",
      text: `The landing point lies outside the boundary, ${metres(inverse(firingPoint, located.point).distance)} from the firing point. Check the entry; if it is right, tell the safety officer.`,
    });
  return flags;
}
