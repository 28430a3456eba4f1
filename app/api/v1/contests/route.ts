/** All contests; another one. */
import { methods, read, write } from "@/lib/api/handler";
import { createContest, listContests } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(async ({ db }) => ({ contests: await listContests(db) })),
  POST: write(({ call, body }) => createContest(call, body)),
});
