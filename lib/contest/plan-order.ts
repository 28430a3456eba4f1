/** Planning the firing order of the rest of a day. */
import { type FiringOrder, orderRequest } from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import type { Plan } from "../firing-order";
import { conflict, invalid, isRefusal, parse } from "./errors";
import { contestBySlug } from "./find";
import { isoOf, orderOf } from "./firing-order";
import { inOrder, type Prepared, planned, prepare } from "./order-prepare";
import { mustBeAllowed } from "./roles";
import { canonical, newId, sha256 } from "./scorebook";
import { type TurnRow, turnsOf, writePlaces } from "./turns";
import { answeredBefore, type Call, committed, type Reply } from "./write";

/** Tried again so often when somebody enters a shot meanwhile. */
const TRIES = 3;

/** Plans the rest of the day and makes it the order. Every machine gets a turn in each round that is left. */
export async function planOrder(call: Call, slug: string, body: unknown): Promise<Reply<FiringOrder>> {
  const asked = parse(orderRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "make a firing order", contest.id);
  const request = { act: "firing-order", contest: contest.id, asked };
  const answered = await answeredBefore<FiringOrder>(call, request);
  if (answered) return answered;
  for (let tried = 1; ; tried++) {
    const now = new Date();
    const prepared = await prepare(call.db, slug, contest, asked, now);
    if (prepared.told && asked.reason === undefined)
      throw invalid("reason", "People go by the order that they were told: say why it is planned anew.");
    const plan = await planned(prepared.day);
    try {
      return await committed(call, contest.id, request, async (tx, book) => {
        await mustBeAsRead(tx, contest.id, prepared.before);
        const turns = await writeOrder(tx, prepared, plan);
        const setting = {
          rules: JSON.stringify(prepared.rules),
          geometry: JSON.stringify(prepared.geometry),
          // What it rests on was read from then on.
          plannedAt: now,
        };
        const where = { contestId: contest.id };
        await tx.firingOrder.upsert({ where, create: { ...where, ...setting }, update: setting });
        await book.append("order-planned", contest.id, {
          rules: prepared.rules,
          turns: turns.map(({ shotId, machineId, round, stage, toldAt }) => ({
            shot: shotId,
            machine: machineId,
            round,
            stage,
            at: toldAt?.toISOString() ?? null,
          })),
          end: isoOf(plan.end),
          moved: plan.moved,
          ...(asked.reason !== undefined && { reason: asked.reason }),
        });
        return orderOf(tx, contest.id, now);
      });
    } catch (error) {
      if (!(isRefusal(error) && error.code === "order-changed" && tried < TRIES)) throw error;
    }
  }
}

const stateOf = (turns: readonly TurnRow[]): string =>
  sha256(canonical(turns.map(({ id, stage, place, state }) => [id, stage, place, state])));

async function mustBeAsRead(
  tx: DatabaseTransaction,
  contestId: string,
  read: readonly TurnRow[],
): Promise<void> {
  if (stateOf(await turnsOf(tx, contestId)) !== stateOf(read))
    throw conflict(
      "order-changed",
      "A shot was entered or a turn moved while this was planned. Send it again.",
    );
}

async function writeOrder(tx: DatabaseTransaction, prepared: Prepared, plan: Plan) {
  const { contest, ready, before } = prepared;
  const starts = [...plan.turns];
  const turns = [];
  for (const turn of inOrder(prepared, plan)) {
    const { machineId, round, stage, state } = turn;
    let { shotId } = turn;
    if (shotId === null) {
      const machine = ready.find((each) => each.machineId === machineId);
      if (!machine) throw new Error(`No machine ${machineId} is ready.`);
      shotId = newId();
      await tx.shot.create({
        data: { id: shotId, contestId: contest.id, round, position: 0, ...machine },
        select: { id: true },
      });
    }
    const was = before.find(({ id }) => id === shotId);
    const own =
      state === "to-throw"
        ? starts.splice(
            starts.findIndex((each) => each.machine === machineId && each.stage === stage),
            1,
          )[0]
        : undefined;
    turns.push({
      shotId,
      machineId,
      round,
      stage,
      toldAt: own ? new Date(isoOf(own.start)) : (was?.toldAt ?? null),
      passedOver:
        stage > round ? (was?.passedOver ?? "Comes after the others of its round were done.") : null,
    });
  }
  await writePlaces(tx, turns);
  return turns;
}
