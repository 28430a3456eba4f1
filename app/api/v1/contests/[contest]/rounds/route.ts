/** The firing order of a round. */
import { methods, write } from "@/lib/api/handler";
import { makeRound } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => makeRound(call, params.contest, body)),
});
