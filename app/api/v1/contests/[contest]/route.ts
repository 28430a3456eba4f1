/** One contest with everything laid out and entered. */
import { methods, read } from "@/lib/api/handler";
import { contestOverview } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => contestOverview(db, params.contest)),
});
