/** Where something came down. */
import { methods, write } from "@/lib/api/handler";
import { addPiece } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => addPiece(call, params.contest, params.id, body)),
});
