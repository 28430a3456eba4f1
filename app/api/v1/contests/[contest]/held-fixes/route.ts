/** Entries of ended badges that wait to be confirmed. */
import { methods, read } from "@/lib/api/handler";
import { listHeldFixes } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => listHeldFixes(db, actor, params.contest)),
});
