/** Where a placed machine's ordinary throws land, as GeoJSON. */
import { methods, read } from "@/lib/api/handler";
import { machineContours } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: async (request, context) => {
    const answer = await read(({ db, actor, params }) =>
      machineContours(db, actor, params.contest, params.id),
    )(request, context);
    answer.headers.set("Content-Type", "application/geo+json");
    return answer;
  },
});
