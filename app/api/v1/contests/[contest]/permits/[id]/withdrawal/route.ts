/** Taking a firing permit back. */
import { methods, write } from "@/lib/api/handler";
import { withdrawPermit } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => withdrawPermit(call, params.contest, params.id, body)),
});
