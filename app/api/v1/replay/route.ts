/** Accident replay: what explains where something landed, without an account. */
import { readJson } from "@/lib/api/body";
import { json, methods } from "@/lib/api/handler";
import { openReplay } from "@/lib/contest";

/** A machine with every tolerance and strength is a tenth of this. */
const BODY_LIMIT = 32 * 1024;

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: async (request) => json(200, await openReplay(await readJson(request, BODY_LIMIT))),
});
