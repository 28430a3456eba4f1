/** A machine with its revisions and sheets. */
import { methods, read } from "@/lib/api/handler";
import { machinePage } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => machinePage(db, actor, params.contest, params.id)),
});
