/** The firing order of the day. */
import { methods, read, write } from "@/lib/api/handler";
import { firingOrder, planOrder } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => firingOrder(db, params.contest as string)),
  POST: write(({ call, params, body }) => planOrder(call, params.contest, body)),
});
