/** Putting the particulars of a contest right once it is made. */
import { type ContestSummary, contestChange } from "../api/contracts";
import { contestSummary, mustFollow, particularsOf } from "./contests";
import { given, parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeAllowed } from "./roles";
import { dropRounds } from "./rounds";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

/** Organisers. What they were before stays in the scorebook. */
export async function changeContest(call: Call, slug: string, body: unknown): Promise<Reply<ContestSummary>> {
  const change = given(parse(contestChange, body));
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "change the contest", contest.id);
  const written = committed(
    call,
    contest.id,
    { act: "change-contest", contest: contest.id, change },
    async (tx, book) => {
      const before = await contestBySlug(tx, slug);
      mustFollow({ ...before, ...change });
      const dropped = change.rounds === undefined ? [] : await dropRounds(tx, contest.id, change.rounds);
      const row = await tx.contest.update({ where: { id: contest.id }, data: change });
      // Points whose height nobody gave have the contest's, and go on having it.
      const follow = { where: { contestId: contest.id, heightGiven: false }, data: { height: row.height } };
      await tx.firingPoint.updateMany(follow);
      await tx.controlPoint.updateMany(follow);
      await book.append("contest-changed", contest.id, {
        from: particularsOf(before),
        to: particularsOf(row),
        ...(dropped.length > 0 && { dropped }),
      });
      return contestSummary(row);
    },
    { status: 200 },
  );
  // The ground's height is part of every sheet.
  return thenSheets(call.db, contest.id, written);
}
