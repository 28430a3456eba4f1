/** A badge's end. */
import { methods, write } from "@/lib/api/handler";
import { changeBadge } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeBadge(call, params.contest, params.id, body)),
});
