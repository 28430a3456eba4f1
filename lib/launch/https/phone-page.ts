/**
 * The page by which a phone comes to trust this laptop. It is served over plain http too, where nothing else is: so it
 * is whole in itself, without scripts, styles or pictures from elsewhere.
 */
import type { IncomingMessage, ServerResponse } from "node:http";
import { qrDrawing } from "../../qr";

export interface PhoneGuide {
  /** PEM. */
  authority: string;
  fingerprint: string;
  /** "192.168.1.5:3000", as phones reach it. */
  host: string;
}

const CERTIFICATE = "/phone/authority.crt";

/** Answers what belongs to the page; false when something else was asked for. */
export function answerPhone(request: IncomingMessage, response: ServerResponse, guide: PhoneGuide): boolean {
  const path = (request.url ?? "/").split("?")[0];
  if (path === CERTIFICATE) {
    response.writeHead(200, {
      "Content-Type": "application/x-x509-ca-cert",
      "Content-Disposition": 'attachment; filename="fairthrow-authority.crt"',
      "Cache-Control": "no-store",
    });
    response.end(guide.authority);
    return true;
  }
  if (path !== "/phone") return false;
  response.writeHead(200, {
    "Content-Type": "text/html; charset=utf-8",
    "Cache-Control": "no-store",
    "Content-Security-Policy": "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
  });
  response.end(page(guide));
  return true;
}

/** Plain http has this page and nothing else: codes and positions do not go over the air in the clear. */
export function answerPlain(
  request: IncomingMessage,
  response: ServerResponse,
  guide: PhoneGuide | null,
): void {
  if (guide && answerPhone(request, response, guide)) return;
  if (request.method === "GET" || request.method === "HEAD") {
    const Location = guide ? "/phone" : `https://${request.headers.host ?? "localhost"}${request.url ?? "/"}`;
    response.writeHead(302, { Location, "Cache-Control": "no-store" });
    response.end();
    return;
  }
  response.writeHead(403, { "Content-Type": "application/problem+json" });
  const detail = "Send this over https: nothing that is written goes over plain http.";
  response.end(
    JSON.stringify({ type: "about:blank", title: "Not over plain http", status: 403, detail, code: "https" }),
  );
}

const page = ({ fingerprint, host }: PhoneGuide) => `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>A phone for this fair · Fairthrow</title>
<style>
body { font: 1.125rem/1.6 system-ui, sans-serif; color: #1d1b16; background: #fdfbf5; margin: 0 auto; max-width: 40rem; padding: 1rem; overflow-wrap: anywhere; }
h1 { line-height: 1.2; } h2 { margin-top: 2rem; }
a.button { display: block; box-sizing: border-box; min-height: 3.5rem; padding: 0.8rem 1rem; margin: 0.5rem 0; border: 2px solid #1d1b16; border-radius: 0.5rem; font-weight: 700; text-align: center; color: inherit; }
svg { display: block; width: 14rem; max-width: 100%; }
code { font-size: 0.95em; }
</style>
<main>
<h1>A phone for this fair</h1>
<p>This laptop proves who it is with a certificate of its own making. A phone that trusts it opens the judge&rsquo;s
page without a network, gives its position and keeps entries. It trusts it for local networks only, and you can take it
off after the fair.</p>
<h2>1. Get the certificate</h2>
<a class="button" href="${CERTIFICATE}">Get the certificate of this laptop</a>
<h2>2. Install it</h2>
<p><strong>Android:</strong> Settings, Security, More security settings, Encryption and credentials, Install a
certificate, CA certificate; choose the file <code>fairthrow-authority.crt</code>.</p>
<p><strong>iPhone, iPad:</strong> with Safari: allow the profile, then Settings, Profile downloaded, Install; then
Settings, General, About, Certificate Trust Settings: switch it on.</p>
<p>Compare its SHA-256 fingerprint with what the laptop printed at its start, or ask the organiser. If they differ,
do not install it.</p>
<p><code>${fingerprint}</code></p>
<h2>3. Go on</h2>
<a class="button" href="https://${host}/">Open Fairthrow</a>
<p>If the phone warns of the connection, the certificate is not installed yet.</p>
<h2>For the next phone</h2>
${qrDrawing(`http://${host}/phone`)}
<p>Scan this, or type <code>http://${host}/phone</code></p>
</main>
</html>
`;
