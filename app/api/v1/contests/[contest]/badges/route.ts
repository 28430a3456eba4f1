/** Badges of a contest; a new one. */
import { methods, read, write } from "@/lib/api/handler";
import { listBadges, makeBadge } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(async ({ db, actor, params }) => ({ badges: await listBadges(db, actor, params.contest) })),
  POST: write(({ call, params, body }) => makeBadge(call, params.contest, body)),
});
