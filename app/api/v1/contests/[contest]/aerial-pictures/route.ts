/** A new picture underneath the map. Its bytes make the body larger than other writes'. */
import { methods, write } from "@/lib/api/handler";
import { addAerialPicture } from "@/lib/contest";

const BODY_LIMIT = 17 * 1024 * 1024;

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(
    ({ call, params, body }) => addAerialPicture(call, params.contest, body),
    undefined,
    BODY_LIMIT,
  ),
});
