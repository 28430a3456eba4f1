/** Keep-out zones as GeoJSON. */
import { methods, read } from "@/lib/api/handler";
import { contestZones } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: async (request, context) => {
    const answer = await read(({ db, params }) => contestZones(db, params.contest))(request, context);
    answer.headers.set("Content-Type", "application/geo+json");
    return answer;
  },
});
