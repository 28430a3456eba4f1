/** Where all machines stand, and putting a plan for them into effect. */
import { methods, read, write } from "@/lib/api/handler";
import { applyPlacing, placingDesk } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => placingDesk(db, actor, params.contest)),
  PUT: write(({ call, params, body }) => applyPlacing(call, params.contest, body)),
});
