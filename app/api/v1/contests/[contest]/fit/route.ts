/** The largest counterweight, pressure or draw with which a machine fits. */
import { methods, readWithProgress } from "@/lib/api/handler";
import { fitMachine } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: readWithProgress(({ db, actor, params, query }, options) =>
    fitMachine(db, actor, params.contest, query, options),
  ),
});
