/** Who signed in, when and on what kind of device; and who tried a code that opens no more. For organisers. */
import { type Role, type SignIns, signInsQuery } from "../api/contracts";
import type { Database } from "../db";
import { parse } from "./errors";
import { contestBySlug } from "./find";
import { type Asker, mustBeAllowed } from "./roles";

const PAGE = 100;

export async function signInLog(db: Database, actor: Asker, slug: string, query: unknown): Promise<SignIns> {
  const { skip } = parse(signInsQuery, query);
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "make and revoke badges", contest.id);
  const rows = await db.signIn.findMany({
    where: { badge: { contestId: contest.id } },
    orderBy: [{ at: "desc" }, { id: "asc" }],
    skip,
    take: PAGE + 1,
    include: { badge: { select: { label: true, role: true } } },
  });
  return {
    signIns: rows.slice(0, PAGE).map(({ at, badgeId, device, refused, badge }) => ({
      at: at.toISOString(),
      badgeId,
      label: badge.label,
      role: badge.role as Role,
      device,
      refused: refused as SignIns["signIns"][number]["refused"],
    })),
    next: rows.length > PAGE ? skip + PAGE : null,
  };
}
