/** What a machine is. */
import { methods, write } from "@/lib/api/handler";
import { enterMachineState } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  PUT: write(({ call, params, body }) => enterMachineState(call, params.contest, params.id, body)),
});
