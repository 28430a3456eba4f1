/** Every other address under /api/v1: not there, and said so like everything else. */
import { methods } from "@/lib/api/handler";
import { Refusal } from "@/lib/contest";

const missing = async () => {
  throw new Refusal(
    404,
    "not-found",
    "There is nothing at this address. /api/v1/openapi.json lists what there is.",
  );
};

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: missing,
  POST: missing,
  PUT: missing,
  PATCH: missing,
  DELETE: missing,
});
