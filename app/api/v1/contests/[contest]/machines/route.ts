/** A new machine of an entrant. */
import { methods, write } from "@/lib/api/handler";
import { enterMachine } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => enterMachine(call, params.contest, body)),
});
