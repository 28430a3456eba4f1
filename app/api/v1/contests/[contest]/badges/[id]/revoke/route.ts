/** Revoking a badge, which ends its sessions. */
import { methods, write } from "@/lib/api/handler";
import { revokeBadge } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params }) => revokeBadge(call, params.contest, params.id)),
});
