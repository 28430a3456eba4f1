/** A new revision of a machine, as measured. */
import { methods, write } from "@/lib/api/handler";
import { declareMeasured } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => declareMeasured(call, params.contest, params.id, body)),
});
