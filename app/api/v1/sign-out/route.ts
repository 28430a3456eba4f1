/** Ends the session; doing so twice is the same as once. */
import { methods, write } from "@/lib/api/handler";
import { cameByHttps } from "@/lib/api/same-origin";
import { endedCookie } from "@/lib/api/session";
import { signOut } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: async (request, context) => {
    const answer = await write(({ call, token }) => signOut(call, token))(request, context);
    answer.headers.set("Set-Cookie", endedCookie(cameByHttps(request)));
    return answer;
  },
});
