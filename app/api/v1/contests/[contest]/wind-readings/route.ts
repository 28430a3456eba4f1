/** The wind of the day, and a new reading of it. */
import { methods, read, write } from "@/lib/api/handler";
import { readWind, windReadings } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, params }) => windReadings(db, params.contest)),
  POST: write(({ call, params, body }) => readWind(call, params.contest, body)),
});
