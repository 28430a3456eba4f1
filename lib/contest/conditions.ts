/** The policy and the air that every hazard sheet of a contest rests on. The safety officer's alone. */
import { airRequest, policyRequest } from "../api/contracts";
import type { Air, Policy } from "../throw";
import { parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeAllowed } from "./roles";
import { computeMissingSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

/** Every sheet computed under the old policy is stale from now on; new ones are computed at once. */
export async function setPolicy(call: Call, slug: string, body: unknown): Promise<Reply<{ policy: Policy }>> {
  const { policy, reason } = parse(policyRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "set the policy", contest.id);
  const reply = await committed(
    call,
    contest.id,
    { act: "policy", contest: contest.id, policy, reason },
    async (tx, book) => {
      await tx.contest.update({ where: { id: contest.id }, data: { policy: JSON.stringify(policy) } });
      await book.append("policy-set", contest.id, { policy, reason });
      return { policy };
    },
    { status: 200 },
  );
  computeMissingSheets(call.db, contest.id);
  return reply;
}

/** The air and the strongest wind in which machines may fire. */
export async function setAir(call: Call, slug: string, body: unknown): Promise<Reply<{ air: Air }>> {
  const { air, reason } = parse(airRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "set the air", contest.id);
  const reply = await committed(
    call,
    contest.id,
    { act: "air", contest: contest.id, air, reason },
    async (tx, book) => {
      await tx.contest.update({ where: { id: contest.id }, data: { air: JSON.stringify(air) } });
      await book.append("air-set", contest.id, { air, reason });
      return { air };
    },
    { status: 200 },
  );
  computeMissingSheets(call.db, contest.id);
  return reply;
}
