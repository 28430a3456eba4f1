/** The team takes a photograph out. */
import { methods, write } from "@/lib/api/handler";
import { removePhotograph } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, bearer }) => removePhotograph(call, params.contest, bearer, params.id)),
});
