/** The bearing in which a post saw a shot land. */
import { methods, write } from "@/lib/api/handler";
import { sightSplash } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => sightSplash(call, params.contest, params.id, body)),
});
