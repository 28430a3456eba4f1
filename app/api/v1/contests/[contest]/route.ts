/** One contest with everything laid out and entered; putting its particulars right. */
import { methods, read, write } from "@/lib/api/handler";
import { changeContest, contestOverview } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => contestOverview(db, params.contest)),
  PATCH: write(({ call, params, body }) => changeContest(call, params.contest, body)),
});
