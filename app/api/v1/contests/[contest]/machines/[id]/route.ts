/** A machine with its revisions and sheets; naming and retiring it. */
import { methods, read, write } from "@/lib/api/handler";
import { changeMachine, machinePage } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => machinePage(db, actor, params.contest, params.id)),
  PATCH: write(({ call, params, body }) => changeMachine(call, params.contest, params.id, body)),
});
