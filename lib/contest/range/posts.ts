/** A post says clear, or not: the person there, from a phone that must be heard on. */
import { postRequest, type RangeBrief } from "../../api/contracts";
import { parse } from "../errors";
import { contestBySlug, featureIn } from "../find";
import { mustBeAllowed } from "../roles";
import { sha256 } from "../scorebook";
import type { Call, Reply } from "../write";
import { changeRange } from "./change";
import { programHold } from "./hold";
import { rangeNow } from "./store";

export async function sayAtPost(
  call: Call,
  slug: string,
  postId: string,
  body: unknown,
): Promise<Reply<RangeBrief>> {
  const { clear, turn, phone, left } = parse(postRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "say clear at a post", contest.id);
  const { name } = await featureIn(call.db, contest.id, postId);
  const { label } = call.actor;
  // Before anything is written: it must stop a hot range though the disk be full.
  if (!clear) await stopHot(call, contest.id, `${name} says not clear.`);
  return changeRange(call, contest, {
    request: { act: "post", contest: contest.id, postId, clear, turn, phone, left },
    say: async () => ({
      event: clear
        ? { do: "clear", post: postId, turn, phone, left }
        : { do: "not-clear", post: postId, by: label },
      entry: {
        act: clear ? "post-clear" : "post-not-clear",
        subjectId: postId,
        details: clear ? { left } : {},
      },
    }),
  });
}

async function stopHot({ db, actor, key }: Call, contestId: string, why: string): Promise<void> {
  const at = Date.now();
  const { hot } = await rangeNow(db, contestId, at);
  if (!hot) return;
  const id = sha256(`${actor?.badgeId}:${key}`).slice(0, 20);
  await programHold(db, contestId, { id, at, by: actor?.label ?? null, why });
}
