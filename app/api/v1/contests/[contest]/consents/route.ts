/** The register of consents. */
import { methods, read, write } from "@/lib/api/handler";
import { addConsent, listConsents } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  GET: read(({ db, actor, params }) => listConsents(db, actor, params.contest)),
  POST: write(({ call, params, body }) => addConsent(call, params.contest, body)),
});
