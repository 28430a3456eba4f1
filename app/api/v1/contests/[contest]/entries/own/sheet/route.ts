/** What the team's machine would do there. */
import { methods, readWithProgress } from "@/lib/api/handler";
import { entrySheet } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: readWithProgress(({ db, params, bearer }, { onProgress }) =>
    entrySheet(db, params.contest, bearer, onProgress),
  ),
});
