/** One of the team's own photographs. */
import { methods, privatePhotograph } from "@/lib/api/handler";
import { ownPhotograph } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: privatePhotograph(({ db, params, bearer }) => ownPhotograph(db, params.contest, bearer, params.id)),
});
