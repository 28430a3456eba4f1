/** Signing a firing permit. */
import { methods, write } from "@/lib/api/handler";
import { signPermit } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => signPermit(call, params.contest, params.id, body)),
});
