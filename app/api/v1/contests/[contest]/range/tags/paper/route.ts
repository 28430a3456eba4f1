/** Who was out, by a tally on paper. */
import { methods, write } from "@/lib/api/handler";
import { tagFromPaper } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => tagFromPaper(call, params.contest, body)),
});
