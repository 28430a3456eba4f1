/** One frozen safety file. */
import { methods, read } from "@/lib/api/handler";
import { safetyFile } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => safetyFile(db, actor, params.contest, params.id)),
});
