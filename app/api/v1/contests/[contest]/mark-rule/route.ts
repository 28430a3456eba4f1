/** How landing points become marks. */
import { methods, read, write } from "@/lib/api/handler";
import { readMarkRule, setMarkRule } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => readMarkRule(db, params.contest)),
  PUT: write(({ call, params, body }) => setMarkRule(call, params.contest, body)),
});
