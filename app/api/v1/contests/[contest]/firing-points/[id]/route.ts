/** Moving a firing point. */
import { methods, write } from "@/lib/api/handler";
import { moveFiringPoint } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => moveFiringPoint(call, params.contest, params.id, body)),
});
