/** Signing for a barrier. */
import { methods, write } from "@/lib/api/handler";
import { signBarrier } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => signBarrier(call, params.contest, body)),
});
