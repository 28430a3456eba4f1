/** Who signed in. */
import { methods, read } from "@/lib/api/handler";
import { signInLog } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params, query }) => signInLog(db, actor, params.contest, query)),
});
