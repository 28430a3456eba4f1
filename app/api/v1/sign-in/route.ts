/** Signing in with a badge's code. */
import { methods, write } from "@/lib/api/handler";
import { cameByHttps } from "@/lib/api/same-origin";
import { sessionCookie } from "@/lib/api/session";
import { signIn } from "@/lib/contest";

export const { GET, HEAD, POST, PUT, PATCH, DELETE, OPTIONS } = methods({
  POST: async (request, context) => {
    let cookie = "";
    const answer = await write(async ({ call, body }) => {
      const { answer: session, ...reply } = await signIn(call, body, request.headers.get("user-agent"));
      cookie = sessionCookie(session.token, new Date(session.expiresAt), cameByHttps(request));
      return { ...reply, answer: session.me };
    })(request, context);
    answer.headers.set("Set-Cookie", cookie);
    return answer;
  },
});
