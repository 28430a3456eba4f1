/** A line of the stand-clear list. */
import { methods, write } from "@/lib/api/handler";
import { tickList } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => tickList(call, params.contest, body)),
});
