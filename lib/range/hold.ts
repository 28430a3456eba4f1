/** Holds: any of them stops everything; one that comes late is only written down. */
import { type Hold, nextTurn, type RangeState } from "./state";

/** Pressed longer ago than this, ms, a hold says nothing of now. */
export const LATE = 60_000;
const REMEMBERED = 500;

/** "already": it had come before. "late": it was pressed long ago, or before the last lift. */
export type HoldDone = "applied" | "already" | "late";

export function withHold(state: RangeState, hold: Hold, at: number): { state: RangeState; done: HoldDone } {
  if (state.known.includes(hold.id)) return { state, done: "already" };
  const known = [...state.known, hold.id].slice(-REMEMBERED);
  const late = at - hold.at > LATE || (state.liftedAt !== null && hold.at < state.liftedAt);
  if (late) return { state: { ...state, known }, done: "late" };
  return { state: { ...nextTurn(state), known, hot: null, holds: [...state.holds, hold] }, done: "applied" };
}

/** Why holds are not lifted; empty when they are. */
export function liftProblems({ holds }: RangeState, seen: readonly string[]): string[] {
  if (holds.length === 0) return ["No hold stands."];
  if (holds.some(({ id }) => !seen.includes(id)))
    return ["Another hold has come since: see why it was called, then lift again."];
  return [];
}
