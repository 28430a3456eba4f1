/** Confirming or rejecting an entry of an ended badge. */
import { methods, write } from "@/lib/api/handler";
import { decideHeldFix } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => decideHeldFix(call, params.contest, params.id, body)),
});
