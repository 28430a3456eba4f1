/** A played day, and what came of those before. */
import { methods, read, write } from "@/lib/api/handler";
import { readRehearsal, startRehearsal } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => readRehearsal(db, actor, params.contest)),
  POST: write(({ call, params, body }) => startRehearsal(call, params.contest, body)),
});
