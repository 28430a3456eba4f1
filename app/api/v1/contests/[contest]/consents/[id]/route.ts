/** Changing or retiring a consent. */
import { methods, write } from "@/lib/api/handler";
import { changeConsent } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeConsent(call, params.contest, params.id, body)),
});
