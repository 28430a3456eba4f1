/** Lifts the holds that stand. */
import { methods, write } from "@/lib/api/handler";
import { liftHold } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => liftHold(call, params.contest, body)),
});
