/** The safety plan. */
import { methods, read, write } from "@/lib/api/handler";
import { readSafetyPlan, setSafetyPlan } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => readSafetyPlan(db, actor, params.contest)),
  PUT: write(({ call, params, body }) => setSafetyPlan(call, params.contest, body)),
});
