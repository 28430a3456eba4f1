/** Ends hot. */
import { methods, write } from "@/lib/api/handler";
import { goCold } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => goCold(call, params.contest, body)),
});
