/** A photograph joins the entry. */

import { PHOTOGRAPH_BYTES } from "@/lib/api/contracts";
import { methods, writeFile } from "@/lib/api/handler";
import { addPhotograph } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: writeFile(PHOTOGRAPH_BYTES, ({ call, params, bearer, query, bytes }) =>
    addPhotograph(call, params.contest, bearer, query, bytes),
  ),
});
