/** Inspecting a machine. */
import { methods, write } from "@/lib/api/handler";
import { inspectMachine } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, body }) => inspectMachine(call, params.contest, params.id, body)),
});
