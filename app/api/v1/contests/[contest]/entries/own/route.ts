/** A team's own entry, by its secret. */
import { methods, read, write } from "@/lib/api/handler";
import { readOwnEntry, saveOwnEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params, bearer }) => readOwnEntry(db, params.contest, bearer)),
  PUT: write(({ call, params, bearer, body }) => saveOwnEntry(call, params.contest, bearer, body)),
});
