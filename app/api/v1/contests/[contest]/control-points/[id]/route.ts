/** Changing or retiring a control point. */
import { methods, write } from "@/lib/api/handler";
import { changeControlPoint } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeControlPoint(call, params.contest, params.id, body)),
});
