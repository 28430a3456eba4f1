/** What a post says. */
import { methods, write } from "@/lib/api/handler";
import { sayAtPost } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => sayAtPost(call, params.contest, params.id, body)),
});
