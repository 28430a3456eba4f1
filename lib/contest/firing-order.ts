/** The firing order of the day, with the times to be expected by what machines take and by the pace of the day. */
import type { FiringOrder, OrderRules, TurnInfo } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { type Plan, type PlannedTurn, timed } from "../firing-order";
import { contestBySlug } from "./find";
import { type Crew, dayOf, paceOf } from "./order-day";
import { type OrderGeometry, placementOf } from "./order-geometry";
import { standingPermits } from "./permits";
import { SharedReading } from "./shared-reading";
import { type TurnRow, turnsOf } from "./turns";

type Reader = Database | DatabaseTransaction;

/** What an order was planned by; null before the first. */
export interface OrderSetting {
  rules: OrderRules;
  geometry: OrderGeometry;
  plannedAt: Date;
}

export async function orderSetting(db: Reader, contestId: string): Promise<OrderSetting | null> {
  const row = await db.firingOrder.findUnique({ where: { contestId } });
  return (
    row && {
      rules: JSON.parse(row.rules) as OrderRules,
      geometry: JSON.parse(row.geometry) as OrderGeometry,
      plannedAt: row.plannedAt,
    }
  );
}

export const crewsOf = (db: Reader, contestId: string): Promise<(Crew & { name: string })[]> =>
  db.machine.findMany({
    where: { contestId },
    select: { id: true, name: true, rearm: true, live: true, notBefore: true },
  });

const readings = new SharedReading<FiringOrder>();

/** Open to all. */
export const firingOrder = (db: Database, slug: string): Promise<FiringOrder> =>
  readings.read(slug, async () => {
    const { id } = await contestBySlug(db, slug);
    const order = await orderOf(db, id, new Date());
    return { ...order, turns: await withPermits(db, id, order.turns) };
  });

/** So many turns ahead somebody can still see to a permit, or let another pass. */
const LOOKED_AT = 5;

async function withPermits(db: Database, contestId: string, turns: readonly TurnInfo[]): Promise<TurnInfo[]> {
  const next = turns.filter(({ state }) => state === "to-throw").slice(0, LOOKED_AT);
  const standing = await standingPermits(db, contestId, [...new Set(next.map(({ machineId }) => machineId))]);
  return turns.map((turn) =>
    standing && next.includes(turn) ? { ...turn, permitted: standing.has(turn.machineId) } : turn,
  );
}

/** As it is in a transaction, or to a moment. */
export async function orderOf(db: Reader, contestId: string, now: Date): Promise<FiringOrder> {
  // One after the other: inside a transaction a connection answers one question at a time.
  const turns = await turnsOf(db, contestId);
  const setting = await orderSetting(db, contestId);
  const crews = await crewsOf(db, contestId);
  const ready = await standingMachines(db, contestId);
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId }, select: { rounds: true } });
  const upId = turns.find(({ state }) => state === "to-throw")?.id ?? null;
  const facts = setting && { turns: asDayTurns(turns), crews, now, ...setting };
  const planned = facts && timed(dayOf(facts));
  const nameOf = new Map(crews.map(({ id, name }) => [id, name]));
  return {
    at: now.toISOString(),
    rules: setting?.rules ?? null,
    plannedAt: setting?.plannedAt.toISOString() ?? null,
    turns: withTimes(turns.map(turnInfo), planned, nameOf),
    upId,
    pace: facts && paceOf(facts),
    stale: setting
      ? [...whatChanged(turns, setting, nameOf), ...(await groundChanged(db, contestId, turns, setting))]
      : [],
    missing: setting ? withoutTurn(turns, ready, contest.rounds, nameOf) : [],
  };
}

/** As the planner's facts take them. */
export const asDayTurns = (turns: readonly TurnRow[]) =>
  turns.map(({ id, machineId, round, stage, state, thrownAt }) => ({
    shotId: id as string | null,
    machineId,
    round,
    stage,
    state,
    thrownAt,
  }));

export function turnInfo(turn: TurnRow): TurnInfo {
  return {
    shotId: turn.id,
    round: turn.round,
    stage: turn.stage,
    place: turn.place,
    entrantId: turn.entrantId,
    entrantNumber: turn.entrant.number,
    entrantName: turn.entrant.name,
    machineId: turn.machineId,
    machineName: turn.machine.name,
    firingPointNumber: turn.firingPoint.number,
    bearing: turn.bearing,
    state: turn.state,
    thrownAt: turn.thrownAt?.toISOString() ?? null,
    toldAt: turn.toldAt?.toISOString() ?? null,
    expectedAt: null,
    doneAt: null,
    stops: [],
    passedOver: turn.state === "to-throw" ? turn.passedOver : null,
    permitted: null,
  };
}

export const isoOf = (seconds: number): string => new Date(Math.round(seconds) * 1000).toISOString();

/** Each turn to come with its planned time: the planner keeps their order within a stage. */
export function withTimes(
  turns: readonly TurnInfo[],
  planned: Pick<Plan, "turns"> | null,
  nameOf: ReadonlyMap<string, string>,
): TurnInfo[] {
  const left: PlannedTurn[] = [...(planned?.turns ?? [])];
  return turns.map((turn) => {
    if (turn.state !== "to-throw") return turn;
    const at = left.findIndex(({ machine, stage }) => machine === turn.machineId && stage === turn.stage);
    const [own] = at < 0 ? [] : left.splice(at, 1);
    if (!own) return turn;
    return {
      ...turn,
      expectedAt: isoOf(own.start),
      doneAt: isoOf(own.end),
      stops: own.stops.map((id) => nameOf.get(id) ?? ""),
    };
  });
}

/** What the order was planned by and is no longer so. */
function whatChanged(
  turns: readonly TurnRow[],
  { geometry }: OrderSetting,
  nameOf: ReadonlyMap<string, string>,
): string[] {
  const left = turns.filter(({ state }) => state === "to-throw");
  const changed = new Set(
    left
      .filter((turn) => geometry[turn.machineId]?.at !== placementOf(turn))
      .map(({ machineId }) => machineId),
  );
  return [...changed].map(
    (id) =>
      `${nameOf.get(id)} was placed, turned or declared anew since the order was planned: who stands in whose zone may be different. Plan anew.`,
  );
}

/** Acts that change zones, or who stands in them, of machines that stay where they are. */
const GROUND = [
  "policy-set",
  "air-set",
  "firing-point-moved",
  "firing-point-changed",
  "feature-added",
  "feature-changed",
  "barrier-signed",
  "barrier-retired",
];

async function groundChanged(
  db: Reader,
  contestId: string,
  turns: readonly TurnRow[],
  { plannedAt }: OrderSetting,
): Promise<string[]> {
  const since = { gt: plannedAt };
  const acts = await db.scorebookEntry.findFirst({
    where: { contestId, act: { in: GROUND }, createdAt: since },
    select: { sequence: true },
  });
  const left = turns.filter(({ state }) => state === "to-throw").map(({ revisionId }) => revisionId);
  const sheet = await db.hazardSheet.findFirst({
    where: { revisionId: { in: [...new Set(left)] }, createdAt: since },
    select: { id: true },
  });
  return acts || sheet
    ? [
        "Zones, or what stands in them, were changed since the order was planned: who has to step back for whom may be different. Plan anew.",
      ]
    : [];
}

const standingMachines = (db: Reader, contestId: string) =>
  db.machine.findMany({
    where: { contestId, retired: false, firingPointId: { not: null }, bearing: { not: null } },
    select: { id: true, entrantId: true },
  });

/** Teams that stand on the line and have no turn in a round that is not over. */
function withoutTurn(
  turns: readonly TurnRow[],
  ready: readonly { id: string; entrantId: string }[],
  rounds: number,
  nameOf: ReadonlyMap<string, string>,
): FiringOrder["missing"] {
  const open = turns.filter(({ state }) => state === "to-throw");
  const first = open[0]?.stage ?? (turns.at(-1)?.stage ?? 0) + 1;
  return ready
    .filter(({ entrantId }) => !turns.some((turn) => turn.entrantId === entrantId && turn.state === "out"))
    .map(({ id, entrantId }) => {
      const lacking = Array.from({ length: Math.max(0, rounds - first + 1) }, (_, index) => first + index);
      const has = new Set(turns.filter((turn) => turn.entrantId === entrantId).map(({ round }) => round));
      return {
        machineId: id,
        machineName: nameOf.get(id) ?? "",
        rounds: lacking.filter((round) => !has.has(round)),
      };
    })
    .filter(({ rounds: lacking }) => lacking.length > 0);
}
