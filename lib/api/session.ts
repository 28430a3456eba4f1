/** The session's cookie. HttpOnly and SameSite=Lax always; Secure whenever the page came by https. */
export const SESSION_COOKIE = "fairthrow-session";

export function sessionCookie(token: string, expiresAt: Date, secure: boolean): string {
  return [
    `${SESSION_COOKIE}=${token}`,
    "Path=/",
    `Expires=${expiresAt.toUTCString()}`,
    "HttpOnly",
    "SameSite=Lax",
    ...(secure ? ["Secure"] : []),
  ].join("; ");
}

export const endedCookie = (secure: boolean): string => sessionCookie("", new Date(0), secure);

/** The session's token among a request's cookies. */
export function tokenOf(cookieHeader: string | null): string | null {
  for (const part of cookieHeader?.split(";") ?? []) {
    const [name, value] = part.trim().split("=", 2);
    if (name === SESSION_COOKIE && value) return value;
  }
  return null;
}
