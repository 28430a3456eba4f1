/** What every open page shows of the range, told at once. */
import type { RangeBrief } from "../../api/contracts";
import type { Database } from "../../db";
import { type Facts, modeOf, type RangeState } from "../../range";
import type { ContestRow } from "../find";
import { factsOf } from "./facts";
import { playedNow, tell } from "./memory";
import { rangeNow } from "./store";

export function briefOf(
  contestId: string,
  state: RangeState,
  facts: Pick<Facts, "machines">,
  at: number,
): RangeBrief {
  const { hot, turn } = state;
  return {
    mode: modeOf(state, facts, at),
    at: new Date(at).toISOString(),
    turn,
    holds: state.holds.map(({ id, by, why, ...hold }) => ({
      id,
      at: new Date(hold.at).toISOString(),
      by,
      why,
    })),
    hot: hot && {
      id: hot.id,
      machineId: hot.machineId,
      machineName: facts.machines.find(({ id }) => id === hot.machineId)?.name ?? "a machine",
      since: new Date(hot.since).toISOString(),
    },
    rehearsal: playedNow(contestId, at),
  };
}

/** After a change: every page hears of it before the scorebook's own notice. */
export async function tellNow(db: Database, contest: ContestRow): Promise<RangeBrief> {
  const facts = await factsOf(db, contest, []);
  const at = Date.now();
  const brief = briefOf(contest.id, await rangeNow(db, contest.id, at), facts, at);
  tell(db, contest.id, { brief });
  return brief;
}
