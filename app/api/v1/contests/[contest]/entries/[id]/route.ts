/** One entry with its people. */
import { methods, read } from "@/lib/api/handler";
import { readEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => readEntry(db, actor, params.contest, params.id)),
});
