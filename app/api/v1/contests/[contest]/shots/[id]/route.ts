/** One shot with every fix and ruling. */
import { methods, read } from "@/lib/api/handler";
import { shotHistory } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => shotHistory(db, params.contest, params.id)),
});
