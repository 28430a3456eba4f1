/** The current hazard sheet of a machine. */
import { methods, read } from "@/lib/api/handler";
import { machineSheet } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => machineSheet(db, actor, params.contest, params.id)),
});
