/**
 * Those whom the program plays: a safety officer and a judge with badges of their own, which nobody can sign in with, so
 * that the scorebook tells what was played from what people did.
 */
import type { Role } from "../../api/contracts";
import type { Database, DatabaseTransaction } from "../../db";
import { preparedCode } from "../badge-code";
import { addBadge } from "../badges";
import type { ContestRow } from "../find";
import type { Actor } from "../roles";
import { newId, type OpenScorebook } from "../scorebook";
import type { Call } from "../write";

const ROLES = ["safety-officer", "judge"] as const satisfies Role[];
const labelOf = (role: Role) => `Played by the program: ${role === "judge" ? "judge" : "safety officer"}`;

/** A call of one's own for every act. */
export interface Cast {
  officer: () => Call;
  judge: () => Call;
}

/** Their badges, made when there are none yet; inside a transaction. `codes` are thrown away. */
export async function castBadges(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  codes: Awaited<ReturnType<typeof castCodes>>,
): Promise<void> {
  for (const [index, role] of ROLES.entries()) {
    const label = labelOf(role);
    const code = codes[index];
    if (code && !(await tx.badge.findFirst({ where: { contestId, role, label } })))
      // Ended as it is made.
      await addBadge(tx, book, contestId, { role, label, endsAt: book.at, reusable: false }, code);
  }
}

export const castCodes = () => Promise.all(ROLES.map(() => preparedCode()));

export async function castOf(db: Database, contest: ContestRow): Promise<Cast> {
  const [officer, judge] = await Promise.all(
    ROLES.map(async (role) => {
      const label = labelOf(role);
      const { id } = await db.badge.findFirstOrThrow({ where: { contestId: contest.id, role, label } });
      const actor: Actor = {
        badgeId: id,
        role,
        label,
        contestId: contest.id,
        contestSlug: contest.slug,
        entrantId: null,
      };
      return () => ({ db, actor, key: newId() });
    }),
  );
  return { officer, judge } as Cast;
}
