/** Control points and heights of the ground: what landing points are measured from, and what throws fall to. */
import {
  type ControlPointInfo,
  controlPointChange,
  controlPointRequest,
  type SpotHeightInfo,
  spotHeightChange,
  spotHeightRequest,
} from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import { given, notFound, parse, taken } from "./errors";
import type { ContestRow } from "./find";
import { mustBeNear } from "./fitting";
import { contestToLayOut } from "./layout";
import { newId, type OpenScorebook } from "./scorebook";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

export async function addControlPoint(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<ControlPointInfo>> {
  const point = parse(controlPointRequest, body);
  const contest = await contestToLayOut(call, slug);
  mustBeNear(contest, point, "latitude");
  const request = { act: "control-point", contest: contest.id, point };
  const written = committed(call, contest.id, request, (tx, book) =>
    insertControlPoint(tx, book, contest, point),
  );
  return thenSheets(call.db, contest.id, written);
}

/** Inside a transaction that may insert others too. Throws 409 where the name is taken. */
export async function insertControlPoint(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contest: Pick<ContestRow, "id" | "height">,
  point: ReturnType<typeof controlPointRequest.parse>,
): Promise<ControlPointInfo> {
  const { height = contest.height, ...rest } = point;
  await nameMustBeFree(tx, contest.id, point.name);
  const row = await tx.controlPoint.create({
    data: {
      id: newId(),
      contestId: contest.id,
      ...rest,
      height,
      heightGiven: point.height !== undefined,
    },
  });
  await book.append("control-point-added", row.id, pegOf(row));
  return controlPointInfo(row);
}

/** What it was before stays in the scorebook, but for its note, which may name people. */
export async function changeControlPoint(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<ControlPointInfo>> {
  const change = parse(controlPointChange, body);
  const contest = await contestToLayOut(call, slug);
  const request = { act: "change-control-point", id, change };
  const written = committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const before = await tx.controlPoint.findFirst({ where: { id, contestId: contest.id } });
      if (!before) throw notFound("control point");
      if (change.name !== undefined && change.name !== before.name)
        await nameMustBeFree(tx, contest.id, change.name);
      mustBeNear(contest, { ...before, ...given(change) }, "latitude");
      const heightGiven = before.heightGiven || change.height !== undefined;
      const row = await tx.controlPoint.update({ where: { id }, data: { ...given(change), heightGiven } });
      await book.append("control-point-changed", id, {
        from: { ...pegOf(before), retired: before.retired },
        to: { ...pegOf(row), retired: row.retired },
      });
      return controlPointInfo(row);
    },
    { status: 200 },
  );
  return thenSheets(call.db, contest.id, written);
}

export async function addSpotHeight(call: Call, slug: string, body: unknown): Promise<Reply<SpotHeightInfo>> {
  const spot = parse(spotHeightRequest, body);
  const contest = await contestToLayOut(call, slug);
  mustBeNear(contest, spot, "latitude");
  const request = { act: "spot-height", contest: contest.id, spot };
  const written = committed(call, contest.id, request, (tx, book) =>
    insertSpotHeight(tx, book, contest, spot),
  );
  return thenSheets(call.db, contest.id, written);
}

/** Inside a transaction that may insert others too. */
export async function insertSpotHeight(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contest: Pick<ContestRow, "id">,
  spot: ReturnType<typeof spotHeightRequest.parse>,
): Promise<SpotHeightInfo> {
  const row = await tx.spotHeight.create({ data: { id: newId(), contestId: contest.id, ...spot } });
  await book.append("spot-height-added", row.id, spot);
  return spotHeightInfo(row);
}

export async function changeSpotHeight(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<SpotHeightInfo>> {
  const change = parse(spotHeightChange, body);
  const contest = await contestToLayOut(call, slug);
  const request = { act: "change-spot-height", id, change };
  const written = committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const before = await tx.spotHeight.findFirst({ where: { id, contestId: contest.id } });
      if (!before) throw notFound("spot height");
      mustBeNear(contest, { ...before, ...given(change) }, "latitude");
      const row = await tx.spotHeight.update({ where: { id }, data: given(change) });
      const [{ id: _, ...from }, { id: __, ...to }] = [spotHeightInfo(before), spotHeightInfo(row)];
      await book.append("spot-height-changed", id, { from, to });
      return spotHeightInfo(row);
    },
    { status: 200 },
  );
  return thenSheets(call.db, contest.id, written);
}

/** A retired peg keeps its name too: an old sheet of paper may still mean it. */
async function nameMustBeFree(tx: DatabaseTransaction, contestId: string, name: string): Promise<void> {
  const other = await tx.controlPoint.findFirst({ where: { contestId, name } });
  if (!other) return;
  const remedy = other.retired ? "It is retired: bring it back, or choose another name." : "Choose another.";
  throw taken("name", `There is a control point ${name} already. ${remedy}`);
}

type Peg = Pick<ControlPointInfo, "name" | "latitude" | "longitude" | "height" | "accuracy">;
const pegOf = ({ name, latitude, longitude, height, accuracy }: Peg): Peg => ({
  name,
  latitude,
  longitude,
  height,
  accuracy,
});

export function controlPointInfo(row: ControlPointInfo): ControlPointInfo {
  const { id, heightGiven, note, retired } = row;
  return { id, ...pegOf(row), heightGiven, note, retired };
}

export function spotHeightInfo(row: SpotHeightInfo): SpotHeightInfo {
  const { id, latitude, longitude, height, retired } = row;
  return { id, latitude, longitude, height, retired };
}
