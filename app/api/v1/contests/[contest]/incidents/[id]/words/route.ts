/** Writing down what happened, in words. */
import { methods, write } from "@/lib/api/handler";
import { writeWords } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => writeWords(call, params.contest, params.id, body)),
});
