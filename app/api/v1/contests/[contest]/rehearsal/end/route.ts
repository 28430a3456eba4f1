/** The rehearsal ends. */
import { methods, write } from "@/lib/api/handler";
import { endRehearsal } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params }) => endRehearsal(call, params.contest)),
});
