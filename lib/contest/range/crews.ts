/** What a machine's crew says of it, and who goes there after a misfire. */
import { approachRequest, machineStateRequest, type RangeBrief } from "../../api/contracts";
import { parse } from "../errors";
import { contestBySlug, machineIn } from "../find";
import { mustBeAllowed } from "../roles";
import type { Call, Reply } from "../write";
import { changeRange } from "./change";
import { insertTag } from "./tally";

/** By the crew's chief, or the safety officer in their place. */
export async function enterMachineState(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<RangeBrief>> {
  const { to, step } = parse(machineStateRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const machine = await machineIn(call.db, contest.id, machineId);
  mustBeAllowed(call.actor, "enter a machine's state", contest.id, machine.entrantId);
  return changeRange(call, contest, {
    request: { act: "machine-state", contest: contest.id, machineId, to, step },
    machineId,
    say: async () => ({
      event: { do: "machine", machineId, to, step },
      entry: { act: "machine-state", subjectId: machineId, details: { to } },
    }),
  });
}

/** One person, by name, tagged out for as long as they are there. */
export async function nameApproach(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<RangeBrief>> {
  const { name, step } = parse(approachRequest, body);
  const contest = await contestBySlug(call.db, slug);
  await machineIn(call.db, contest.id, machineId);
  mustBeAllowed(call.actor, "name who approaches a misfire", contest.id);
  const { badgeId } = call.actor;
  return changeRange(call, contest, {
    request: { act: "approach", contest: contest.id, machineId, name, step },
    machineId,
    status: 201,
    say: async (tx, book) => {
      const tag = await insertTag(tx, {
        contestId: contest.id,
        name,
        machineId,
        outAt: book.at,
        outBadgeId: badgeId,
      });
      return {
        event: { do: "approach", machineId, tag: tag.id, step },
        entry: { act: "approach-named", subjectId: machineId, details: { tag: tag.id } },
      };
    },
  });
}
