/**
 * For server components: who reads, and the queries they may make. A query that is refused becomes the page that
 * says so, with its status.
 */
import type { Metadata } from "next";
import { cookies } from "next/headers";
import { forbidden, notFound } from "next/navigation";
import { cache } from "react";
import type { ContestOverview, Me, Role } from "@/lib/api/contracts";
import { SESSION_COOKIE } from "@/lib/api/session";
import {
  type Actor,
  type Asker,
  actorOfToken,
  contestOverview,
  deliveredByEnded,
  isRefusal,
  judgeView,
  whoAmI,
} from "@/lib/contest";
import { type Database, getDatabase } from "@/lib/db";

const token = async () => (await cookies()).get(SESSION_COOKIE)?.value;

/** Who is signed in, once a request. */
export const asker = cache(async (): Promise<Asker> => actorOfToken(await getDatabase(), await token()));

export const me = cache(async (): Promise<Me> => whoAmI(await getDatabase(), await token()));

/** What a reader whose badge of this contest has ended has delivered since; null for everybody else. */
export const delivered = async (slug: string) => deliveredByEnded(await getDatabase(), await token(), slug);

/** Runs a query; what is not there shows as 404, what the reader may not see as 403. */
export async function reading<T>(query: (db: Database, who: Asker) => Promise<T>): Promise<T> {
  const db = await getDatabase();
  const who = await asker();
  try {
    return await query(db, who);
  } catch (error) {
    if (isRefusal(error) && error.status === 404) notFound();
    if (isRefusal(error) && (error.status === 401 || error.status === 403)) forbidden();
    throw error;
  }
}

/** What is laid out and entered in a contest, once a request. */
export const overview = cache(
  (slug: string): Promise<ContestOverview> => reading((db) => contestOverview(db, slug)),
);

/** The reader's badge when it is of this contest and one of these roles; otherwise the 403 page. */
export async function allowed(slug: string, roles: readonly Role[]): Promise<Actor> {
  const who = await asker();
  await overview(slug);
  if (!who || who.contestSlug !== slug || !roles.includes(who.role)) forbidden();
  return who;
}

/** The round that an address names, `?round=2`; undefined without a sensible one. */
export function roundAsked({ round }: Record<string, string | string[] | undefined>): number | undefined {
  const asked = Number(round);
  return Number.isInteger(asked) && asked > 0 ? asked : undefined;
}

/** One round as those see it who measure there, with what a page needs to go on from it without a network. */
export async function judgesRound(slug: string, round: number | undefined) {
  const { sequence } = await overview(slug);
  const { view, who } = await reading(async (db, asker) => ({
    view: await judgeView(db, asker, slug, round),
    who: asker,
  }));
  return {
    label: who?.label ?? "",
    given: {
      slug,
      initial: view,
      owner: who?.role === "judge" ? who.badgeId : null,
      madeAt: new Date().toISOString(),
      sequence,
    },
  };
}

/** A page's title with the contest's name after it. */
export const titled =
  (title: string) =>
  async ({ params }: { params: Promise<{ contest: string }> }): Promise<Metadata> => ({
    title: `${title}, ${(await overview((await params).contest)).name}`,
  });
