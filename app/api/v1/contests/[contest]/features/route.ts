/** A new site feature. */
import { methods, write } from "@/lib/api/handler";
import { addFeature } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addFeature(call, params.contest, body)),
});
