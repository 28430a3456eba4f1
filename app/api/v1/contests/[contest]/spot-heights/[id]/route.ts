/** Changing or retiring a height of the ground. */
import { methods, write } from "@/lib/api/handler";
import { changeSpotHeight } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeSpotHeight(call, params.contest, params.id, body)),
});
