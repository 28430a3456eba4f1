/** Back to the team, with what is missing. */
import { methods, write } from "@/lib/api/handler";
import { returnEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => returnEntry(call, params.contest, params.id, body)),
});
