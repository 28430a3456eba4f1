/**
 * Against requests that another site makes a browser send. The session cookie is SameSite=Lax and bodies must be JSON,
 * so this is the third lock: a write must come from a page of this very origin, or from no page at all (a script).
 */
import { Refusal } from "../contest/errors";

/** Throws 403. Sec-Fetch-Site decides where the browser sends it (it does so only on https and localhost), else Origin. */
export function mustBeSameOrigin(request: Request): void {
  const { headers } = request;
  const site = headers.get("sec-fetch-site");
  if (site !== null) {
    if (site === "same-origin" || site === "none") return;
    throw crossSite();
  }
  const origin = headers.get("origin");
  if (origin === null) return;
  // Behind a proxy the host that the browser asked for comes in X-Forwarded-Host, which no page can set.
  const hosts = [headers.get("host"), headers.get("x-forwarded-host")];
  const own = hostOf(origin);
  if (own === null || !hosts.includes(own)) throw crossSite();
}

function hostOf(origin: string): string | null {
  try {
    return new URL(origin).host;
  } catch {
    return null;
  }
}

const crossSite = () =>
  new Refusal(
    403,
    "cross-site",
    "This write comes from another site. Open Fairthrow's own page and do it there.",
  );

/** Whether the browser came by https, also through a proxy. */
export function cameByHttps(request: Request): boolean {
  const forwarded = request.headers.get("x-forwarded-proto")?.split(",")[0]?.trim();
  return (forwarded ?? new URL(request.url).protocol.replace(":", "")) === "https";
}
