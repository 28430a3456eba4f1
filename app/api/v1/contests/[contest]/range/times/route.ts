/** How long silence, a clear and a misfire last. */
import { methods, write } from "@/lib/api/handler";
import { setTimes } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => setTimes(call, params.contest, body)),
});
