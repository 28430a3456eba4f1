/** The range now. */
import { methods, read } from "@/lib/api/handler";
import { rangeView } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params, query }) => rangeView(db, params.contest, query)),
});
