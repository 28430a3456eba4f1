/** The margins and angles of every sheet. */
import { methods, write } from "@/lib/api/handler";
import { setPolicy } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => setPolicy(call, params.contest, body)),
});
