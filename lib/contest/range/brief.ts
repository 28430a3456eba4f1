/** What every open page shows of the range. */
import type { RangeBrief } from "../../api/contracts";
import { type Facts, modeOf, type RangeState } from "../../range";
import { playedNow } from "./memory";

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
