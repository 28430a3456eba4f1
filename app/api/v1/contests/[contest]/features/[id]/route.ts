/** Changing or retiring a site feature. */
import { methods, write } from "@/lib/api/handler";
import { changeFeature } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeFeature(call, params.contest, params.id, body)),
});
