/** The team sends its entry to the organiser. */
import { methods, write } from "@/lib/api/handler";
import { sendOwnEntry } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: write(({ call, params, bearer }) => sendOwnEntry(call, params.contest, bearer)),
});
