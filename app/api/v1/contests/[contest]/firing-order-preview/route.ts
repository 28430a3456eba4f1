/** What planning the firing order anew would come to. */
import { methods, readBody } from "@/lib/api/handler";
import { proposeOrder } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: readBody(({ db, actor, params, body }) => proposeOrder(db, actor, params.contest as string, body)),
});
