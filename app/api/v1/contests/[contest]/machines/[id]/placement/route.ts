/** Where a machine stands and aims. */
import { methods, write } from "@/lib/api/handler";
import { placeMachine } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => placeMachine(call, params.contest, params.id, body)),
});
