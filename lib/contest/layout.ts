/** Laying out the range: divisions, entrants and firing points. The organiser's; its features are in features.ts. */
import type { z } from "zod";
import {
  divisionRequest,
  type divisionSchema,
  entrantRequest,
  type entrantSchema,
  firingPointChange,
  firingPointRequest,
  type firingPointSchema,
} from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import { conflict, given, invalid, parse, taken } from "./errors";
import { type ContestRow, contestBySlug, firingPointIn } from "./find";
import { mustBeNear } from "./fitting";
import { mustBeMadeSafe } from "./range/made-safe";
import { mustBeAllowed } from "./roles";
import { canonical, newId, type OpenScorebook } from "./scorebook";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

type DivisionInfo = z.infer<typeof divisionSchema>;
type EntrantInfo = z.infer<typeof entrantSchema>;
export type FiringPointInfo = z.infer<typeof firingPointSchema>;

const LAY_OUT = "lay out divisions, entrants, firing points and site features";

export async function contestToLayOut(call: Call, slug: string): Promise<ContestRow> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, LAY_OUT, contest.id);
  return contest;
}

export async function addDivision(call: Call, slug: string, body: unknown): Promise<Reply<DivisionInfo>> {
  const { name } = parse(divisionRequest, body);
  const { id: contestId } = await contestToLayOut(call, slug);
  return committed(call, contestId, { act: "division", contestId, name }, async (tx, book) => {
    if (await tx.division.findFirst({ where: { contestId, name } }))
      throw taken("name", `There is a division ${name} already.`);
    const position = (await tx.division.count({ where: { contestId } })) + 1;
    const row = await tx.division.create({ data: { id: newId(), contestId, name, position } });
    await book.append("division-added", row.id, { name, position });
    return { id: row.id, name, position };
  });
}

export async function addEntrant(call: Call, slug: string, body: unknown): Promise<Reply<EntrantInfo>> {
  const entrant = parse(entrantRequest, body);
  const { id: contestId } = await contestToLayOut(call, slug);
  return committed(call, contestId, { act: "entrant", contestId, entrant }, (tx, book) =>
    insertEntrant(tx, book, contestId, entrant),
  );
}

/** The row and its entry, inside a transaction. */
export async function insertEntrant(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  entrant: z.output<typeof entrantRequest>,
): Promise<EntrantInfo> {
  const { divisionId, name } = entrant;
  if (!(await tx.division.findFirst({ where: { id: divisionId, contestId } })))
    throw invalid("divisionId", "No division of this contest has this id.");
  if (await tx.entrant.findFirst({ where: { contestId, name } }))
    throw taken("name", `There is an entrant ${name} already.`);
  const last = await tx.entrant.findFirst({ where: { contestId }, orderBy: { number: "desc" } });
  const number = entrant.number ?? (last?.number ?? 0) + 1;
  if (await tx.entrant.findFirst({ where: { contestId, number } }))
    throw taken("number", `Number ${number} is given to another entrant.`);
  const row = await tx.entrant.create({ data: { id: newId(), contestId, divisionId, number, name } });
  await book.append("entrant-added", row.id, { division: divisionId, number });
  return { id: row.id, divisionId, number, name };
}

export async function addFiringPoint(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<FiringPointInfo>> {
  const point = parse(firingPointRequest, body);
  const contest = await contestToLayOut(call, slug);
  const contestId = contest.id;
  mustBeNear(contest, point, "latitude");
  const request = { act: "firing-point", contestId, point };
  const written = committed(call, contestId, request, async (tx, book) => {
    const last = await tx.firingPoint.findFirst({ where: { contestId }, orderBy: { number: "desc" } });
    const number = point.number ?? (last?.number ?? 0) + 1;
    if (await tx.firingPoint.findFirst({ where: { contestId, number } }))
      throw taken("number", `There is a firing point ${number} already.`);
    const { name, latitude, longitude, height = contest.height, accuracy } = point;
    const place = { latitude, longitude, height, accuracy };
    const heightGiven = point.height !== undefined;
    const row = await tx.firingPoint.create({
      data: { id: newId(), contestId, number, name, ...place, heightGiven },
    });
    await book.append("firing-point-added", row.id, { number, ...place });
    return firingPointInfo(row);
  });
  // Its height is one of those that describe the ground.
  return thenSheets(call.db, contestId, written);
}

/** Other coordinates are refused once a shot from there has an entry: its marks are measured from where the point was. */
export async function changeFiringPoint(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<FiringPointInfo>> {
  const change = given(parse(firingPointChange, body));
  const contest = await contestToLayOut(call, slug);
  const written = committed(
    call,
    contest.id,
    { act: "change-firing-point", id, change },
    async (tx, book) => {
      const before = await firingPointIn(tx, contest.id, id);
      const after = { ...before, ...change };
      // What a form sends back of a point that is only named anew is rounded to the millimetre.
      if (Math.hypot(after.latitude - before.latitude, after.longitude - before.longitude) < MILLIMETRE)
        Object.assign(after, { latitude: before.latitude, longitude: before.longitude });
      mustBeNear(contest, after, "latitude");
      const [from, to] = [placeOf(before), placeOf(after)];
      const moves = canonical(from) !== canonical(to);
      // A height or an accuracy put right moves no mark by more than millimetres, and may make a zone larger.
      if (from.latitude !== to.latitude || from.longitude !== to.longitude)
        await mustMoveNothingLive(tx, before);
      if (after.retired && !before.retired) await mustBeEmpty(tx, before);
      const { name, retired } = after;
      const heightGiven = before.heightGiven || change.height !== undefined;
      const row = await tx.firingPoint.update({
        where: { id },
        data: { name, retired, ...to, heightGiven },
      });
      if (moves) await book.append("firing-point-moved", id, { from, to });
      if (row.name !== before.name || row.retired !== before.retired)
        await book.append("firing-point-changed", id, {
          from: { name: before.name, retired: before.retired },
          to: { name: row.name, retired: row.retired },
        });
      return firingPointInfo(row);
    },
    { status: 200 },
  );
  return thenSheets(call.db, contest.id, written);
}

/** In degrees. */
const MILLIMETRE = 1e-8;

type FiringPointRow = Awaited<ReturnType<typeof firingPointIn>>;

async function mustBeUnmeasured(tx: DatabaseTransaction, { id, number }: FiringPointRow): Promise<void> {
  const measured = await tx.shot.count({ where: { firingPointId: id, fixes: { some: {} } } });
  if (measured > 0)
    throw conflict(
      "already-measured",
      `Firing point ${number} has ${measured} measured ${measured === 1 ? "shot" : "shots"}, and their marks count from where it stands. Add a new firing point and place the machines there.`,
    );
}

/** Marks count from it, and what is armed there has its zone where it stands. */
async function mustMoveNothingLive(tx: DatabaseTransaction, point: FiringPointRow): Promise<void> {
  await mustBeUnmeasured(tx, point);
  const machines = await tx.machine.findMany({ where: { firingPointId: point.id } });
  for (const machine of machines) await mustBeMadeSafe(tx, point.contestId, machine);
}

/** Retired, it must leave no zone behind and no turn to throw from. */
async function mustBeEmpty(tx: DatabaseTransaction, { id, number }: FiringPointRow): Promise<void> {
  const machines = await tx.machine.findMany({ where: { firingPointId: id }, orderBy: { name: "asc" } });
  if (machines.length > 0)
    throw conflict(
      "in-use",
      `${machines.map(({ name }) => name).join(", ")} ${machines.length === 1 ? "stands" : "stand"} on firing point ${number}. Place ${machines.length === 1 ? "it" : "them"} elsewhere first.`,
    );
}

type Place = Pick<FiringPointInfo, "latitude" | "longitude" | "height" | "accuracy">;
const placeOf = ({ latitude, longitude, height, accuracy }: Place): Place => ({
  latitude,
  longitude,
  height,
  accuracy,
});

export function firingPointInfo(row: FiringPointInfo): FiringPointInfo {
  const { id, number, name, heightGiven, retired } = row;
  return { id, number, name, ...placeOf(row), heightGiven, retired };
}
