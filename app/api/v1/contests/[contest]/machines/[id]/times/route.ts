/** How long a machine takes. */
import { methods, write } from "@/lib/api/handler";
import { setMachineTimes } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => setMachineTimes(call, params.contest, params.id, body)),
});
