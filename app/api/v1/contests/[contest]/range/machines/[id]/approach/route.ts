/** Who goes to a misfire. */
import { methods, write } from "@/lib/api/handler";
import { nameApproach } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => nameApproach(call, params.contest, params.id, body)),
});
