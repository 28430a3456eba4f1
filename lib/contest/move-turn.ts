/** One turn elsewhere in the order of the day, or passed over. */
import { type FiringOrder, turnMove } from "../api/contracts";
import { conflict, invalid, notFound, parse } from "./errors";
import { contestBySlug } from "./find";
import { orderOf } from "./firing-order";
import { mustBeAllowed } from "./roles";
import { turnsOf, writePlaces } from "./turns";
import { type Call, committed, type Reply } from "./write";

/** What was thrown stays before it, and nobody else changes places. */
export async function moveTurn(
  call: Call,
  slug: string,
  shotId: string,
  body: unknown,
): Promise<Reply<FiringOrder>> {
  const { after, reason } = parse(turnMove, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "move a turn", contest.id);
  const request = { act: "move-turn", shotId, after, reason };
  return committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const turns = await turnsOf(tx, contest.id);
      const moving = turns.find(({ id }) => id === shotId);
      if (!moving) throw notFound("turn");
      if (moving.state === "thrown")
        throw conflict(
          "thrown",
          `${moving.machine.name} has thrown this shot: what was thrown stays in its place.`,
        );
      if (moving.state === "out")
        throw conflict(
          "out",
          `${moving.entrant.name} does not compete, by a ruling: nobody waits for this turn.`,
        );
      const target = after === null ? null : turns.find(({ id }) => id === after);
      if (target === undefined || target === moving)
        throw invalid("after", "Name another turn of this contest, after which this one comes.");
      const stage = target?.stage ?? moving.stage;
      if (stage < moving.round)
        throw invalid(
          "after",
          `This turn is of round ${moving.round}: it comes in its own round's order or in a later one.`,
        );
      const others = turns.filter((turn) => turn !== moving);
      const here = others.filter((turn) => turn.stage === stage);
      const thrown = here.filter(({ state }) => state === "thrown").length;
      const at = target ? Math.max(here.indexOf(target) + 1, thrown) : here.length;
      here.splice(at, 0, { ...moving, stage, passedOver: reason });
      const all = [...others.filter((turn) => turn.stage !== stage), ...here];
      await writePlaces(
        tx,
        all.map((turn) => ({ ...turn, shotId: turn.id })),
      );
      // The others were told their times before; this one is told its new one.
      const order = await orderOf(tx, contest.id, book.at);
      const now = order.turns.find((turn) => turn.shotId === shotId);
      const toldAt = now?.expectedAt ?? null;
      await tx.turn.update({ where: { shotId }, data: { toldAt } });
      await book.append("turn-moved", shotId, {
        shot: shotId,
        machine: moving.machineId,
        from: { stage: moving.stage, place: moving.place },
        to: { stage, place: now?.place ?? 0 },
        ...(after === null && { passedOver: true }),
        reason,
      });
      return {
        ...order,
        turns: order.turns.map((turn) => (turn.shotId === shotId ? { ...turn, toldAt } : turn)),
      };
    },
    { status: 200 },
  );
}
