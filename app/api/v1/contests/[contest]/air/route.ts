/** The air and the strongest wind in which machines may fire. */
import { methods, write } from "@/lib/api/handler";
import { setAir } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => setAir(call, params.contest, body)),
});
