/** What a team's page shows before it begins. */
import { methods, read } from "@/lib/api/handler";
import { readInvitation } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params, bearer }) => readInvitation(db, params.contest, bearer)),
});
