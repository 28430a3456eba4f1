/** What of a feature's protection the safety officer allows to be less than its kind's. */
import { methods, write } from "@/lib/api/handler";
import { allowProtection } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => allowProtection(call, params.contest, params.id, body)),
});
