/** A new control point. */
import { methods, write } from "@/lib/api/handler";
import { addControlPoint } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addControlPoint(call, params.contest, body)),
});
