/** A firing point and a bearing for every machine, or who cannot be placed together and why. */
import { methods, readWithProgress } from "@/lib/api/handler";
import { placingPlan } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: readWithProgress(({ db, actor, params, query }, options) =>
    placingPlan(db, actor, params.contest, query, options),
  ),
});
