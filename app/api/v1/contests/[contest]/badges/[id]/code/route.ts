/** A new code for a badge. */
import { methods, write } from "@/lib/api/handler";
import { renewCode } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => renewCode(call, params.contest, params.id, body)),
});
