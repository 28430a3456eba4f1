/** Incidents: all of them, and entering one. */
import { methods, read, write } from "@/lib/api/handler";
import { enterIncident, listIncidents } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => listIncidents(db, actor, params.contest)),
  POST: write(({ call, params, body }) => enterIncident(call, params.contest, body)),
});
