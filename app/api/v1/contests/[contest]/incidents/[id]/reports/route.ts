/** Correcting the report of an incident. */
import { methods, write } from "@/lib/api/handler";
import { correctReport } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => correctReport(call, params.contest, params.id, body)),
});
