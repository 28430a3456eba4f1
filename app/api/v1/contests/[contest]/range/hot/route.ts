/** Puts the range hot for one machine. */
import { methods, write } from "@/lib/api/handler";
import { goHot } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => goHot(call, params.contest, body)),
});
