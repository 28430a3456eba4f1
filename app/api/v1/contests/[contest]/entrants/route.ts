/** A new entrant. */
import { methods, write } from "@/lib/api/handler";
import { addEntrant } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addEntrant(call, params.contest, body)),
});
