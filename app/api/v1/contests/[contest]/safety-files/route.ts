/** Frozen safety files, and freezing another. */
import { methods, read, write } from "@/lib/api/handler";
import { freezeSafetyFile, listSafetyFiles } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => listSafetyFiles(db, actor, params.contest)),
  POST: write(({ call, params, body }) => freezeSafetyFile(call, params.contest, body)),
});
