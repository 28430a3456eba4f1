/** People's data of the entry go. */
import { methods, write } from "@/lib/api/handler";
import { erasePeople } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => erasePeople(call, params.contest, params.id, body)),
});
