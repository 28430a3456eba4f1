/** Entries of teams: all of them, and beginning one by a link. */
import { methods, read, write } from "@/lib/api/handler";
import { beginEntry, listEntries } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(async ({ db, actor, params }) => ({ entries: await listEntries(db, actor, params.contest) })),
  POST: write(({ call, params, bearer, body }) => beginEntry(call, params.contest, bearer, body)),
});
