/** What importing a file would do. */
import { IMPORT_FILE_BYTES } from "@/lib/api/contracts";
import { methods, readFile } from "@/lib/api/handler";
import { previewImport } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: readFile(IMPORT_FILE_BYTES, ({ db, actor, params, query, bytes }) =>
    previewImport(db, actor, params.contest as string, bytes, query),
  ),
});
