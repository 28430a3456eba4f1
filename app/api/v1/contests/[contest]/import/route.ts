/** Bringing in what was chosen of a previewed file. */
import { IMPORT_JSON_BYTES } from "@/lib/api/contracts";
import { methods, write } from "@/lib/api/handler";
import { importSite } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(
    ({ call, params, body }) => importSite(call, params.contest, body),
    undefined,
    IMPORT_JSON_BYTES,
  ),
});
