/** The form that a minor's guardian signed was seen. */
import { methods, write } from "@/lib/api/handler";
import { seeGuardianForm } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) =>
    seeGuardianForm(call, params.contest, params.id, params.person, body),
  ),
});
