/** On which bearings a machine's zone touches nothing it must not. */
import { methods, read } from "@/lib/api/handler";
import { machineClearBearings } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params, query }) => machineClearBearings(db, actor, params.contest, query)),
});
