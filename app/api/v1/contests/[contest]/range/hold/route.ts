/** Stops the range. */
import { methods, write } from "@/lib/api/handler";
import { callHold } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => callHold(call, params.contest, body)),
});
