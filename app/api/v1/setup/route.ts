/** The first contest, for the setup code. */
import { methods, write } from "@/lib/api/handler";
import { setUp } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, body }) => setUp(call, body)),
});
