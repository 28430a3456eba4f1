/** Somebody is back. */
import { methods, write } from "@/lib/api/handler";
import { tagIn } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params }) => tagIn(call, params.contest, params.id)),
});
