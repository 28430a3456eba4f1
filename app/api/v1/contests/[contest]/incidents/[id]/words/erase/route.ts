/** Erasing what was written of an incident. */
import { methods, write } from "@/lib/api/handler";
import { eraseWords } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params }) => eraseWords(call, params.contest, params.id)),
});
