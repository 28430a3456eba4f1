/** The entry becomes entrant, machine and badge. */
import { methods, write } from "@/lib/api/handler";
import { acceptEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => acceptEntry(call, params.contest, params.id, body)),
});
