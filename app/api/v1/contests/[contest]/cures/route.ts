/** What would keep a machine's zone off what it touches. */
import { methods, readWithProgress } from "@/lib/api/handler";
import { machineCures } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: readWithProgress(({ db, actor, params, query }, options) =>
    machineCures(db, actor, params.contest, query, options),
  ),
});
