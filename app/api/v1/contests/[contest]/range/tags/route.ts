/** Who is downrange. */
import { methods, read, write } from "@/lib/api/handler";
import { readTally, tagOut } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => readTally(db, actor, params.contest)),
  POST: write(({ call, params, body }) => tagOut(call, params.contest, body)),
});
