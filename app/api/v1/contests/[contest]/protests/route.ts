/** Protests of teams, and entering one. */
import { methods, read, write } from "@/lib/api/handler";
import { listProtests, protest } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => listProtests(db, params.contest)),
  POST: write(({ call, params, body }) => protest(call, params.contest, body)),
});
