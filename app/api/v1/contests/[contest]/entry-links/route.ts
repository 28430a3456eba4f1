/** Links by which teams enter themselves. */
import { methods, read, write } from "@/lib/api/handler";
import { listEntryLinks, makeEntryLink } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(async ({ db, actor, params }) => ({ links: await listEntryLinks(db, actor, params.contest) })),
  POST: write(({ call, params, body }) => makeEntryLink(call, params.contest, body)),
});
