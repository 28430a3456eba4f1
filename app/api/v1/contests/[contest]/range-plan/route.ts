/** What the range plan draws and says. */
import { methods, read } from "@/lib/api/handler";
import { rangePlanOf } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => rangePlanOf(db, params.contest)),
});
