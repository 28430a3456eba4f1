/** A lease or a post is there. */
import { methods, readWithBody } from "@/lib/api/handler";
import { beat } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: readWithBody(({ db, actor, params, body }) => beat(db, actor, params.contest, body)),
});
