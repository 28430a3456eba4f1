/** The team withdraws: its people's data are erased. */
import { methods, write } from "@/lib/api/handler";
import { withdrawEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, bearer }) => withdrawEntry(call, params.contest, bearer)),
});
