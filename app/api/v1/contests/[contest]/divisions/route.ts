/** A new division. */
import { methods, write } from "@/lib/api/handler";
import { addDivision } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addDivision(call, params.contest, body)),
});
