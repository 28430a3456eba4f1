/** Where a shot landed: a first entry or a correction. */
import { methods, write } from "@/lib/api/handler";
import { recordFix } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => recordFix(call, params.contest, params.id, body)),
});
