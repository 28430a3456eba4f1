/** What the model says of the places of an incident. */
import { methods, read } from "@/lib/api/handler";
import { replayIncident } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => replayIncident(db, actor, params.contest, params.id)),
});
