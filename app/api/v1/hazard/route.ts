/** The open calculator: a hazard sheet for any machine, without an account. */
import { readJson } from "@/lib/api/body";
import { answerWithProgress, methods } from "@/lib/api/handler";
import { openHazard } from "@/lib/contest";

/** A machine with every tolerance is a tenth of this. */
const BODY_LIMIT = 32 * 1024;

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: async (request) => {
    const body = await readJson(request, BODY_LIMIT);
    return answerWithProgress(request, (onProgress) => openHazard(body, onProgress));
  },
});
