/** A new height of the ground. */
import { methods, write } from "@/lib/api/handler";
import { addSpotHeight } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addSpotHeight(call, params.contest, body)),
});
