/** A new firing point. */
import { methods, write } from "@/lib/api/handler";
import { addFiringPoint } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addFiringPoint(call, params.contest, body)),
});
