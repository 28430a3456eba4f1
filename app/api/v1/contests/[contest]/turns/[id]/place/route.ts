/** One turn elsewhere in the order. */
import { methods, write } from "@/lib/api/handler";
import { moveTurn } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => moveTurn(call, params.contest, params.id, body)),
});
