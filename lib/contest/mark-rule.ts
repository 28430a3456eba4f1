/** The contest's mark rule: from where and to which place marks are taken, the landing sector, the unit. */
import { type MarkingInfo, markRuleRequest } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { invalid, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { type Marking, markingOf, pegOf, resultOf } from "./judging";
import { mustBeAllowed } from "./roles";
import { type Call, committed, type Reply } from "./write";

type Reader = Database | DatabaseTransaction;

const entriesOf = (db: Reader, contestId: string) => db.fix.count({ where: { shot: { contestId } } });

/** Open to all. */
export async function readMarkRule(db: Database, slug: string): Promise<MarkingInfo> {
  const contest = await contestBySlug(db, slug);
  const { rule, centre } = markingOf(contest);
  return {
    rule,
    centre,
    protestMinutes: contest.protestMinutes,
    entries: await entriesOf(db, contest.id),
  };
}

/**
 * Set by the organiser before the first entry, afterwards only with a reason: all marks follow the new rule at once, and
 * the scorebook lists each that changed.
 */
export async function setMarkRule(call: Call, slug: string, body: unknown): Promise<Reply<MarkingInfo>> {
  const asked = parse(markRuleRequest, body);
  const { rule, reason } = asked;
  const contest = await contestBySlug(call.db, slug);
  const contestId = contest.id;
  mustBeAllowed(call.actor, "set the mark rule", contestId);
  const request = { act: "mark-rule", contest: contestId, asked };
  return committed(
    call,
    contestId,
    request,
    async (tx, book) => {
      const entries = await entriesOf(tx, contestId);
      if (entries > 0 && reason === undefined)
        throw invalid("reason", "Marks are entered already and would be made anew: say why.");
      const centre =
        rule.from === "arc"
          ? await tx.controlPoint.findFirst({ where: { id: rule.centre, contestId, retired: false } })
          : null;
      if (rule.from === "arc" && !centre)
        throw invalid("rule.centre", "Choose a control point of this contest that is not retired.");
      const before = await tx.contest.findUniqueOrThrow({ where: { id: contestId } });
      const { protestMinutes = before.protestMinutes } = asked;
      const marking: Marking = {
        rule,
        centre: centre && pegOf(centre),
        remadeAt: entries > 0 ? book.at.toISOString() : null,
      };
      const data = { markRule: JSON.stringify(marking), protestMinutes };
      await tx.contest.update({ where: { id: contestId }, data });
      await book.append("mark-rule-set", contestId, {
        rule,
        ...(marking.centre && { centre: marking.centre }),
        protestMinutes,
        ...(reason !== undefined && { reason }),
        ...(entries > 0 && { remade: await remade(tx, before, marking) }),
      });
      return { rule, centre: marking.centre, protestMinutes, entries };
    },
    { status: 200 },
  );
}

/** Every shot whose mark is another by the new rule. */
async function remade(tx: DatabaseTransaction, contest: ContestRow, marking: Marking) {
  const shots = await tx.shot.findMany({
    where: { contestId: contest.id },
    include: { firingPoint: true, fixes: true, rulings: true },
    orderBy: [{ round: "asc" }, { position: "asc" }],
  });
  return shots.flatMap((shot) => {
    const from = resultOf(shot, markingOf(contest)).mark;
    const to = resultOf(shot, marking).mark;
    return from === to ? [] : [{ shot: shot.id, from, to }];
  });
}
