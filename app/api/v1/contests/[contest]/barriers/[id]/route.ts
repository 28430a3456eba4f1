/** Retiring a barrier. */
import { methods, write } from "@/lib/api/handler";
import { retireBarrier } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => retireBarrier(call, params.contest, params.id, body)),
});
