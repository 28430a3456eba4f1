/** How far every machine has come. */
import { methods, read } from "@/lib/api/handler";
import { listClearance } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => listClearance(db, actor, params.contest)),
});
