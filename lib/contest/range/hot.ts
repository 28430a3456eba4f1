/** The safety officer's: hot for one machine, cold, the lift of a hold, the times; and the beats of who holds a lease. */
import {
  beatRequest,
  coldRequest,
  hotRequest,
  liftRequest,
  type RangeBrief,
  type RangeTimes,
  tickRequest,
  timesRequest,
} from "../../api/contracts";
import type { Database } from "../../db";
import { isSilent } from "../../range";
import { parse } from "../errors";
import { contestBySlug, machineIn } from "../find";
import { type Asker, may, mustBeAllowed } from "../roles";
import { newId } from "../scorebook";
import type { Call, Reply } from "../write";
import { changeRange } from "./change";
import { hotKey, postKey, tell } from "./memory";
import { rangeNow } from "./store";
import { rangeBriefNow } from "./watch";

export async function goHot(call: Call, slug: string, body: unknown): Promise<Reply<RangeBrief>> {
  const { machineId, turn } = parse(hotRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "put the range hot or cold", contest.id);
  await machineIn(call.db, contest.id, machineId);
  return changeRange(call, contest, {
    request: { act: "hot", contest: contest.id, machineId, turn },
    machineId,
    say: async () => {
      const id = newId();
      return {
        event: { do: "hot", id, machineId, turn },
        entry: { act: "range-hot", subjectId: machineId, details: { lease: id } },
      };
    },
  });
}

export async function goCold(call: Call, slug: string, body: unknown): Promise<Reply<RangeBrief>> {
  const { hot } = parse(coldRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "put the range hot or cold", contest.id);
  return changeRange(call, contest, {
    request: { act: "cold", contest: contest.id, hot },
    say: async () => ({
      event: { do: "cold", hot },
      entry: { act: "range-cold", subjectId: contest.id, details: { lease: hot } },
    }),
  });
}

export async function liftHold(call: Call, slug: string, body: unknown): Promise<Reply<RangeBrief>> {
  const { holds } = parse(liftRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "lift a hold", contest.id);
  return changeRange(call, contest, {
    request: { act: "lift", contest: contest.id, holds },
    say: async () => ({
      event: { do: "lift", holds },
      entry: { act: "hold-lifted", subjectId: contest.id, details: { holds } },
    }),
  });
}

export async function tickList(call: Call, slug: string, body: unknown): Promise<Reply<RangeBrief>> {
  const tick = parse(tickRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "tick the stand-clear list", contest.id);
  const { machineId, key, done } = tick;
  return changeRange(call, contest, {
    request: { act: "tick", contest: contest.id, tick },
    machineId,
    say: async () => ({
      event: { do: "tick", ...tick },
      entry: { act: "list-ticked", subjectId: machineId, details: { key, done } },
    }),
  });
}

export async function setTimes(call: Call, slug: string, body: unknown): Promise<Reply<RangeTimes>> {
  const { times, reason } = parse(timesRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "set the times of the range", contest.id);
  const reply = await changeRange(call, contest, {
    request: { act: "times", contest: contest.id, times, reason },
    say: async () => ({
      event: { do: "times", times },
      entry: { act: "range-times-set", subjectId: contest.id, details: { ...times, reason } },
    }),
  });
  return { ...reply, answer: times };
}

/** Stored nowhere: a lease or a post that stops being heard lapses. What a badge may not hold is passed over. */
export async function beat(db: Database, actor: Asker, slug: string, body: unknown): Promise<RangeBrief> {
  const { hot, post } = parse(beatRequest, body);
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "say clear at a post", contest.id);
  const at = Date.now();
  const state = await rangeNow(db, contest.id, at);
  const heard = (key: string) => tell(db, contest.id, { beat: { key, at } });
  const lease = state.hot?.id === hot ? state.hot : null;
  if (lease && may(actor, "put the range hot or cold", contest.id) && !isSilent(lease, at, state.times))
    heard(hotKey(lease.id));
  const clear = post && state.clears[post.id];
  // Silent for too long it counts as not clear, until somebody there says it again.
  if (post && clear?.phone === post.phone && !isSilent(clear, at, state.times))
    heard(postKey(post.id, post.phone));
  return rangeBriefNow(db, contest.id);
}
