/** Naming, moving and retiring a firing point. */
import { methods, write } from "@/lib/api/handler";
import { changeFiringPoint } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeFiringPoint(call, params.contest, params.id, body)),
});
