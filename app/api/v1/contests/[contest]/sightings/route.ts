/** The shots that spotters saw land last. */
import { methods, read } from "@/lib/api/handler";
import { sightedShots } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => sightedShots(db, params.contest)),
});
