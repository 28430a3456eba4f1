/** What planning the rest of a day is given: rules, who throws, what was thrown and told, and the day made of it. */
import type { OrderRequest, OrderRules } from "../api/contracts";
import type { Database } from "../db";
import { type Day, type Plan, planning } from "../firing-order";
import { conflict, invalid } from "./errors";
import type { ContestRow } from "./find";
import { asDayTurns, crewsOf, orderSetting } from "./firing-order";
import { type DayTurn, dayOf, withLatecomersLater } from "./order-day";
import { type OrderGeometry, orderGeometry } from "./order-geometry";
import { type Ready, readyMachines } from "./ready-machines";
import { type TurnRow, turnsOf } from "./turns";

/** A turn of the plan; without a shot while it is only proposed. */
export interface NewTurn extends DayTurn {
  shotId: string | null;
}

export interface Prepared {
  contest: ContestRow;
  rules: OrderRules;
  geometry: OrderGeometry;
  assumed: string[];
  ready: readonly Ready[];
  before: readonly TurnRow[];
  /** Those of before, and the new ones. */
  turns: readonly NewTurn[];
  day: Day;
  /** An order was told before. */
  told: boolean;
}

export async function prepare(
  db: Database,
  slug: string,
  contest: ContestRow,
  asked: OrderRequest,
  now: Date,
): Promise<Prepared> {
  const [setting, before, crews] = await Promise.all([
    orderSetting(db, contest.id),
    turnsOf(db, contest.id),
    crewsOf(db, contest.id),
  ]);
  const rules = asked.rules ?? setting?.rules;
  if (!rules) throw invalid("rules", "Say from when on machines may throw: the first order needs its rules.");
  mustBeStretches(rules);
  const pending = before.filter(({ state }) => state === "to-throw");
  // Who has a turn already keeps its machine; only the others are chosen from.
  const throwing = new Set(pending.map(({ machineId }) => machineId));
  const chosen = await readyMachines(
    db,
    contest.id,
    asked.machineIds ?? (await oneEach(db, contest.id, throwing)),
  );
  const first = pending[0]?.stage ?? (before.findLast(({ state }) => state === "thrown")?.stage ?? 0) + 1;
  const added = chosen.flatMap(({ machineId, entrantId }) =>
    roundsLeft(first, contest.rounds)
      .filter((round) => !before.some((turn) => turn.entrantId === entrantId && turn.round === round))
      .map((round) => newTurn(machineId, round)),
  );
  if (pending.length + added.length === 0)
    throw conflict(
      "nothing-to-throw",
      chosen.length === 0
        ? "No machine stands on the firing line with a bearing and declared dimensions. Place the machines first."
        : `All ${contest.rounds} rounds of this contest are thrown.`,
    );
  const placed = before
    .filter(
      ({ state, machineId }) => state === "to-throw" && !chosen.some((one) => one.machineId === machineId),
    )
    .map(({ entrantId, machineId, revisionId, firingPointId, bearing }) => ({
      entrantId,
      machineId,
      revisionId,
      firingPointId,
      bearing,
    }));
  const ready = [...chosen, ...new Map(placed.map((each) => [each.machineId, each])).values()];
  const { geometry, assumed } = await orderGeometry(db, slug, ready);
  const all: NewTurn[] = [...asDayTurns(before), ...added].sort((a, b) => a.stage - b.stage);
  const facts = { turns: all, crews, rules, geometry, now };
  const turns = withLatecomersLater(facts);
  const told = setting !== null;
  const day = dayOf({ ...facts, turns });
  return {
    contest,
    rules,
    geometry,
    assumed,
    ready,
    before,
    turns,
    told,
    day: { ...day, ...(told && announcement(day, pending, asked.firm)) },
  };
}

function mustBeStretches({ pauses }: OrderRules): void {
  for (const [index, { from, to }] of pauses.entries())
    if (Date.parse(to) <= Date.parse(from))
      throw invalid(`rules.pauses.${index}.to`, "A pause ends after it has begun: give a later time.");
}

const roundsLeft = (first: number, last: number): number[] =>
  Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);

const newTurn = (machineId: string, round: number): NewTurn => ({
  shotId: null,
  machineId,
  round,
  stage: round,
  state: "to-throw",
  thrownAt: null,
});

/** Where a team has a turn with one machine already, its others are no choice any more. */
async function oneEach(
  db: Database,
  contestId: string,
  throwing: ReadonlySet<string>,
): Promise<string[] | undefined> {
  if (throwing.size === 0) return undefined;
  const rows = await db.machine.findMany({
    where: {
      contestId,
      retired: false,
      firingPointId: { not: null },
      bearing: { not: null },
      revisions: { some: {} },
    },
    orderBy: [{ entrant: { number: "asc" } }, { name: "asc" }],
    select: {
      id: true,
      entrantId: true,
      entrant: { select: { rulings: { orderBy: { sequence: "desc" }, take: 1 } } },
    },
  });
  const competing = rows.filter(
    ({ entrant }) => (entrant.rulings[0]?.decision ?? "competing") === "competing",
  );
  return competing
    .filter(
      ({ id, entrantId }) =>
        throwing.has(id) || !competing.some((each) => each.entrantId === entrantId && throwing.has(each.id)),
    )
    .map(({ id }) => id);
}

/** What people were told, and how much of it stays first: whoever is called already, unless it is late. */
function announcement(day: Day, pending: readonly TurnRow[], firm: number) {
  const isLate = (id: string) => (day.machines.find((each) => each.id === id)?.from ?? 0) > day.now;
  const late = pending.findIndex(({ machineId }) => isLate(machineId));
  return {
    announced: pending.map(({ machineId, stage }) => ({ machine: machineId, stage })),
    firm: Math.min(firm, late < 0 ? pending.length : late),
  };
}

/** Runs the search, letting others in between: a hold waits for nothing. */
export async function planned(day: Day): Promise<Plan> {
  const work = planning(day);
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    await new Promise((resolve) => setImmediate(resolve));
  }
}

/** Every turn in the planned order: what was thrown first in its round, who is out last. */
export function inOrder({ turns }: Prepared, plan: Plan): NewTurn[] {
  const left = turns.filter(({ state }) => state === "to-throw").sort((a, b) => a.round - b.round);
  const planned = plan.turns.map(({ machine, stage }) => {
    const at = left.findIndex((turn) => turn.machineId === machine && turn.stage === stage);
    return left.splice(at, 1)[0] as NewTurn;
  });
  const stages = [...new Set(turns.map(({ stage }) => stage))].sort((a, b) => a - b);
  return stages.flatMap((stage) => [
    ...turns.filter((turn) => turn.stage === stage && turn.state === "thrown"),
    ...planned.filter((turn) => turn.stage === stage),
    ...turns.filter((turn) => turn.stage === stage && turn.state === "out"),
  ]);
}
