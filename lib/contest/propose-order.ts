/** What planning the firing order anew would come to. */
import { type OrderFigures, type OrderProposal, orderRequest } from "../api/contracts";
import type { Database } from "../db";
import { type Plan, rota, timed } from "../firing-order";
import { parse } from "./errors";
import { contestBySlug } from "./find";
import { isoOf, turnInfo, withTimes } from "./firing-order";
import { inOrder, planned, prepare } from "./order-prepare";
import { type Asker, mustBeAllowed } from "./roles";

/** What it would come to, beside the order as it is and a plain rota. Nothing is kept. */
export async function proposeOrder(
  db: Database,
  actor: Asker,
  slug: string,
  body: unknown,
): Promise<OrderProposal> {
  const asked = parse(orderRequest, body);
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "make a firing order", contest.id);
  const prepared = await prepare(db, slug, contest, asked, new Date());
  const { day, told, assumed } = prepared;
  const plan = await planned(day);
  const machines = await db.machine.findMany({
    where: { contestId: contest.id },
    include: { entrant: true, firingPoint: true },
  });
  const infos = inOrder(prepared, plan).map((turn) => {
    const row = prepared.before.find(({ id }) => id === turn.shotId);
    if (row) return { ...turnInfo(row), stage: turn.stage, passedOver: null };
    const machine = machines.find(({ id }) => id === turn.machineId);
    return {
      shotId: "new",
      round: turn.round,
      stage: turn.stage,
      place: 0,
      entrantId: machine?.entrantId ?? "",
      entrantNumber: machine?.entrant.number ?? 0,
      entrantName: machine?.entrant.name ?? "",
      machineId: turn.machineId,
      machineName: machine?.name ?? "",
      firingPointNumber: machine?.firingPoint?.number ?? 0,
      bearing: machine?.bearing ?? 0,
      state: "to-throw" as const,
      thrownAt: null,
      toldAt: null,
      expectedAt: null,
      doneAt: null,
      stops: [],
      passedOver: null,
      permitted: null,
    };
  });
  const places = new Map<number, number>();
  const placed = infos.map((turn) => {
    const place = (places.get(turn.stage) ?? 0) + 1;
    places.set(turn.stage, place);
    return { ...turn, place };
  });
  return {
    turns: withTimes(placed, plan, new Map(machines.map(({ id, name }) => [id, name]))),
    proposed: figuresOf(plan),
    unchanged: told ? figuresOf(timed(day)) : null,
    rota: figuresOf(rota({ ...day, announced: [] })),
    bound: isoOf(plan.bound),
    fairWait: plan.fairWait,
    assumed,
  };
}

const figuresOf = ({ end, longestWait, unfair, unrotated, moved }: Plan): OrderFigures => ({
  end: isoOf(end),
  longestWait,
  unfair,
  unrotated,
  moved,
});
