/** An official's decision on an entrant or a shot. */
import { methods, write } from "@/lib/api/handler";
import { rule } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => rule(call, params.contest, body)),
});
