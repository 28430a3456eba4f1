/** A new revision of a machine. */
import { methods, write } from "@/lib/api/handler";
import { declareRevision } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => declareRevision(call, params.contest, params.id, body)),
});
