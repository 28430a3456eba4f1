/** Standings by division and overall. */
import { methods, read } from "@/lib/api/handler";
import { contestStandings } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => contestStandings(db, params.contest)),
});
