/** The organiser refuses the entry, and says why. */
import { methods, write } from "@/lib/api/handler";
import { refuseEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => refuseEntry(call, params.contest, params.id, body)),
});
