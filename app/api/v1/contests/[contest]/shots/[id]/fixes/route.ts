/** Where a shot landed: a first entry or a correction. Also from the phone of an ended badge, to be confirmed. */
import { methods, write } from "@/lib/api/handler";
import { deliverFix } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, token, params, body }) => deliverFix(call, token, params.contest, params.id, body)),
});
