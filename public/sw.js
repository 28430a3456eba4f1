/**
 * The service worker: opens what a field without signal needs. A page is fetched first and kept; without an answer the
 * kept one is shown. Files that never change under their address come from the phone. Writes and data pass through
 * untouched: entries wait in the page's own store.
 *
 * A page of the last version finds its files here after the server has moved on. VERSION changes with the shape of
 * what is kept, not with every release.
 */
const VERSION = "1";
const PAGES = `fairthrow-pages-${VERSION}`;
const FILES = `fairthrow-files-${VERSION}`;

/** After this a kept page is shown although the network may still answer, ms. */
const PATIENCE = 4000;
/** Files of a few versions; the oldest go first. */
const MOST_FILES = 600;

const KEPT_PAGE =
  /^\/contests\/[^/]+(\/(judge(\/paper)?|enter|order|spot|map|stand-clear|standings|walk|splash|clearance(\/[^/]+\/inspect)?|incidents\/new))?$|^\/workbench(\/[^/]+)*$/;
const LASTING = /^\/_next\/static\/|^\/api\/v1\/contests\/[^/]+\/aerial-pictures\/[^/]+$|^\/icon\.svg$/;
/** How pages and scripts name the files that they load. */
const NAMED_FILE = /(?:\/_next\/)?static\/[\w~./%-]+\.(?:js|css|woff2?|svg|png)/g;

self.addEventListener("install", () => self.skipWaiting());

self.addEventListener("activate", (event) => {
  event.waitUntil(moveIn());
});

/** Takes over open pages, and fetches what an older worker had kept before that is thrown away. */
async function moveIn() {
  await self.clients.claim();
  for (const name of await caches.keys()) {
    if (!name.startsWith("fairthrow-") || name === PAGES || name === FILES) continue;
    if (name.startsWith("fairthrow-pages-")) {
      const old = await (await caches.open(name)).keys();
      const kept = await Promise.all(old.map(({ url }) => keepPage(url)));
      if (kept.includes(false)) continue;
    }
    await caches.delete(name);
  }
}

/** A page asks to have pages kept, and is told through its port whether all of them are. */
self.addEventListener("message", (event) => {
  const { keep } = event.data ?? {};
  if (!Array.isArray(keep)) return;
  const work = Promise.all(keep.map((path) => keepPage(new URL(path, location.origin).href)));
  event.waitUntil(work.then((kept) => event.ports[0]?.postMessage({ kept: !kept.includes(false) })));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== location.origin) return;
  if (request.method === "POST" && url.pathname === "/api/v1/sign-out") event.respondWith(signOut(request));
  if (request.method !== "GET") return;
  if (LASTING.test(url.pathname)) event.respondWith(lastingFile(request));
  else if (request.mode === "navigate") event.respondWith(page(event, url));
});

/** A phone that is handed on shows nothing of who had it. What waits to be sent stays in the page's own store. */
async function signOut(request) {
  const response = await fetch(request);
  if (response.ok) await caches.delete(PAGES);
  return response;
}

async function lastingFile(request) {
  const cache = await caches.open(FILES);
  const kept = await cache.match(request, { ignoreVary: true });
  if (kept) return asAsked(request, kept);
  const response = await fetch(request);
  // No room on the phone is no reason not to show the page.
  if (response.ok) await cache.put(request, response.clone()).catch(() => {});
  return asAsked(request, response);
}

/** A worker learns what it is from the end of its own address, and takes that from the answer: one without an address
 * leaves it the one that was asked for. */
const asAsked = (request, response) =>
  request.destination === "worker" && response.ok
    ? new Response(response.body, { status: response.status, headers: response.headers })
    : response;

async function page(event, url) {
  const fresh = fetch(event.request);
  if (!KEPT_PAGE.test(url.pathname)) return fresh.catch(() => notHere(url));
  const cache = await caches.open(PAGES);
  const storing = fresh.then((response) => {
    if (isWhole(response)) return cache.put(url.href, response.clone());
  });
  event.waitUntil(storing.catch(() => {}));
  const kept =
    (await cache.match(url.href, { ignoreVary: true })) ??
    (await cache.match(url.href, { ignoreSearch: true, ignoreVary: true }));
  if (!kept) return fresh.catch(() => notHere(url));
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE, kept));
  const first = await Promise.race([fresh.catch(() => kept), late]);
  // A proxy whose server is down answers too.
  return first.status >= 500 ? kept : first;
}

const isWhole = (response) =>
  response.ok && !response.redirected && (response.headers.get("content-type") ?? "").startsWith("text/html");

/** Keeps a page with all that it loads, also later; false when that failed. */
async function keepPage(href) {
  try {
    const response = await fetch(href, { headers: { Accept: "text/html" } });
    if (!isWhole(response)) return false;
    const text = await response.clone().text();
    await keepFilesOf(text, new Set());
    await (await caches.open(PAGES)).put(href, response);
    return true;
  } catch {
    return false;
  }
}

async function keepFilesOf(text, seen) {
  const cache = await caches.open(FILES);
  const open = [text];
  while (open.length > 0) {
    const names = new Set(open.pop().match(NAMED_FILE) ?? []);
    await Promise.all(
      [...names].map(async (name) => {
        const { href, pathname } = new URL(name.startsWith("/") ? name : `/_next/${name}`, location.origin);
        if (seen.has(href)) return;
        seen.add(href);
        let file = await cache.match(href, { ignoreVary: true });
        if (!file) {
          file = await fetch(href);
          // What only looks like the name of a file is not one.
          if (!file.ok) return;
          await cache.put(href, file.clone());
        }
        if (pathname.endsWith(".js")) open.push(await file.text());
      }),
    );
  }
  const all = await cache.keys();
  const fits = all.length - MOST_FILES;
  await Promise.all(all.slice(0, Math.max(0, fits)).map((old) => cache.delete(old)));
}

/** What stands there is true only while the server is heard: these are never kept. */
const RANGE_PAGE = /^\/contests\/[^/]+\/(range|post|tally|crew)$/;
const RANGE_WORDS =
  "<p><strong>The range is not heard on this phone: it counts as not clear. Horn, flag and radio: ask by radio what the range is, and say there that this phone is out.</strong></p>";

const wordsOf = (path) => decodeURIComponent(path).replace(/[&<>"]/g, "");

/** For an address that is not on this phone: what is. */
async function notHere({ pathname }) {
  const kept = await (await caches.open(PAGES)).keys();
  const links = kept
    .map(({ url }) => new URL(url))
    .filter(({ search }) => search === "")
    .map(({ pathname: path }) => `<li><a href="${path}">${wordsOf(path)}</a></li>`);
  const again = `<p><a href="${pathname}">Try again</a></p>${RANGE_PAGE.test(pathname) ? RANGE_WORDS : ""}`;
  const list = links.length > 0 ? `<p>On this phone are:</p><ul>${links.join("")}</ul>` : "";
  return new Response(
    `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>No network</title><style>body{font:1.25rem/1.6 sans-serif;margin:1rem}a{display:block;padding:.6rem 0}</style>
<h1>No network</h1><p>The server does not answer, and this page is not on this phone.</p>${again}${list}`,
    { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } },
  );
}
