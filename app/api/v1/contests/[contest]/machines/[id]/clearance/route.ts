/** Inspections and firing permits of a machine. */
import { methods, read } from "@/lib/api/handler";
import { machineClearance } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => machineClearance(db, actor, params.contest, params.id)),
});
