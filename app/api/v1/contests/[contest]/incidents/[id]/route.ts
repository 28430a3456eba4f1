/** One incident. */
import { methods, read } from "@/lib/api/handler";
import { readIncident } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => readIncident(db, actor, params.contest, params.id)),
});
