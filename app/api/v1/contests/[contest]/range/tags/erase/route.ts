/** Names of those who are back go. */
import { methods, write } from "@/lib/api/handler";
import { eraseNames } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params }) => eraseNames(call, params.contest)),
});
