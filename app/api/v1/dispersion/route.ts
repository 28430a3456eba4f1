/** The open calculator: where ordinary throws of any machine land, without an account. */
import { readJson } from "@/lib/api/body";
import { json, methods } from "@/lib/api/handler";
import { openDispersion } from "@/lib/contest";

/** A machine with every tolerance is 4 KiB, fifty areas of a dozen corners 20. */
const BODY_LIMIT = 64 * 1024;

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: async (request) => json(200, await openDispersion(await readJson(request, BODY_LIMIT))),
});
