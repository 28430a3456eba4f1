/** Closing, opening and prolonging a link. */
import { methods, write } from "@/lib/api/handler";
import { changeEntryLink } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PATCH: write(({ call, params, body }) => changeEntryLink(call, params.contest, params.id, body)),
});
