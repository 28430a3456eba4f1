/** The safety plan: emergency, weather limits, briefings. One a contest, as it stands now; safety files freeze it. */
import {
  type SafetyPlan,
  type SafetyPlanAnswer,
  safetyPlanRequest,
  safetyPlanSchema,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { conflict, parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeNear } from "./fitting";
import { type Asker, mustBeAllowed } from "./roles";
import { canonical, sha256 } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

/** Officials only: telephone numbers may be somebody's own. */
export async function readSafetyPlan(db: Database, actor: Asker, slug: string): Promise<SafetyPlanAnswer> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see consents, safety plan and safety files", contest.id);
  return safetyPlanOf(db, contest.id);
}

/** The plan, or the defaults while nobody has saved one. */
export async function safetyPlanOf(
  db: Database | DatabaseTransaction,
  contestId: string,
): Promise<SafetyPlanAnswer> {
  const row = await db.safetyPlan.findUnique({ where: { contestId } });
  return {
    plan: safetyPlanSchema.parse(row ? JSON.parse(row.body) : {}),
    updatedAt: row?.updatedAt.toISOString() ?? null,
  };
}

/** The whole plan anew. Refused when it was changed since it was read: two people may write it at once. */
export async function setSafetyPlan(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<SafetyPlanAnswer>> {
  const { plan, replaces } = parse(safetyPlanRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const contestId = contest.id;
  mustBeAllowed(call.actor, "keep the register of consents and the safety plan", contestId);
  for (const place of ["ambulance", "fireService", "firstAid"] as const) {
    const { at } = plan[place];
    if (at) mustBeNear(contest, at, `plan.${place}.at.latitude`);
  }
  return committed(
    call,
    contestId,
    { act: "safety-plan", contest: contestId, plan, replaces: replaces ?? null },
    async (tx, book) => {
      const before = await tx.safetyPlan.findUnique({ where: { contestId } });
      const opened = replaces ? Date.parse(replaces) : replaces;
      if (opened !== undefined && opened !== (before?.updatedAt.getTime() ?? null))
        throw conflict(
          "changed-meanwhile",
          "Somebody else changed the safety plan after you opened it. Open it anew in another tab, compare, and put your changes in there.",
        );
      const row = { body: JSON.stringify(plan), updatedAt: book.at };
      await tx.safetyPlan.upsert({
        where: { contestId },
        create: { contestId, ...row },
        update: row,
      });
      // The text may hold a telephone number or a name: only its hash goes into the chain.
      await book.append("safety-plan-set", contestId, { planHash: sha256(canonical(plan)) });
      return { plan, updatedAt: book.at.toISOString() };
    },
    { status: 200 },
  );
}

/** What a plan does not say yet, one sentence each. */
export function planGaps(plan: SafetyPlan): string[] {
  const placed = ({ words, at }: SafetyPlan["ambulance"]) => words !== "" || at !== null;
  const checks: [boolean, string][] = [
    [plan.emergency.number !== "", "The safety plan has no emergency call number."],
    [plan.emergency.whatToSay !== "", "The safety plan does not say what to say on an emergency call."],
    [placed(plan.ambulance), "The safety plan has no rendezvous for the ambulance."],
    [placed(plan.fireService), "The safety plan has no rendezvous for the fire service."],
    [placed(plan.firstAid), "The safety plan has no first-aid post."],
    [plan.hospital !== "", "The safety plan names no hospital."],
    [plan.stop.who !== "", "The safety plan does not say who stops the range."],
    [
      plan.stop.horn !== "" || plan.stop.flag !== "" || plan.stop.radio !== "",
      "The safety plan names no horn, flag or radio by which the range is stopped.",
    ],
    [plan.fireEquipment !== "", "The safety plan says nothing of fire equipment."],
    [
      (plan.light.earliest !== null && plan.light.latest !== null) || plan.light.visibility !== null,
      "The safety plan has no limit for light: neither times nor a visibility.",
    ],
    [plan.briefing.officials !== "", "The safety plan has no briefing for officials."],
    [plan.briefing.crews !== "", "The safety plan has no briefing for crews."],
    [plan.briefing.spectators !== "", "The safety plan has no words for spectators."],
    [plan.briefed.length > 0, "The safety plan does not list who is to be briefed and sign."],
  ];
  return checks.filter(([said]) => !said).map(([, text]) => text);
}
