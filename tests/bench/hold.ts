/**
 * How long after a hold is pressed it is on every open page: 50 clients of the feed and four pages in Chromium contexts of
 * their own. While all is quiet; while 20 judges save again as soon as they are answered; and with the server's disk full,
 * on a small disk of its own, which takes root. Fails where any page waits longer than a second.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { chromium, type Page } from "playwright-core";
import type { HoldAnswer, RangeView, ShotInfo } from "../../lib/api/contracts";
import { CHROMIUM, programUrl } from "../browser/support";
import { Client } from "../by-http/client";
import { layFair, newJudges } from "../by-http/fair";
import { atEnd, tidyUp } from "../runner/processes.mjs";
import { startProgram } from "../runner/program.mjs";

const FEEDS = 50;
const PAGES = ["standings", "map", "range", "judge"];
const JUDGES = 20;
const PRESSES = 10;
const LIMIT = 1000; // ms
/** Of the small disk, MB. */
const SMALL = 48;

interface Fair {
  base: string;
  officer: Client;
  judge: Client;
  savers: Client[];
  shots: ShotInfo[];
  url: string;
}

/** `code`: an organiser's, or the setup code of a program without any contest. */
async function makeFair(url: string, code: { organiser: string } | { setup: string }): Promise<Fair> {
  const api = `${url.replace(/\/$/, "")}/api/v1`;
  const slug = `hold-${Date.now()}`;
  const base = `/contests/${slug}`;
  const organiser = new Client(api);
  const place = { latitude: 44.2, longitude: -31.6 };
  const contest = { slug, name: slug, date: "2031-10-04", ...place, rounds: 2 };
  const setup = "setup" in code ? { setupCode: code.setup, contest } : null;
  if ("organiser" in code) await organiser.signIn(code.organiser);
  const { badge } = await organiser.ask<{ badge: { code: string } }>(
    "POST",
    setup ? "/setup" : "/contests",
    setup ?? contest,
  );
  await organiser.signIn(badge.code);
  const { shots } = await layFair(organiser, slug, { entrants: JUDGES, rounds: 2, place, bearing: 90 });
  const safety = { role: "safety-officer", label: "Safety officer" };
  const officer = new Client(api);
  await officer.signIn((await organiser.ask<{ code: string }>("POST", `${base}/badges`, safety)).code);
  const codes = await newJudges(organiser, slug, JUDGES + 1);
  const clients = codes.map(() => new Client(api));
  for (const [index, client] of clients.entries()) await client.signIn(codes[index] as string);
  const [judge, ...savers] = clients as [Client, ...Client[]];
  return { base, officer, judge, savers, shots, url };
}

/** Clients of the feed: each answers when it has heard of so many holds, and when of none. */
async function openFeeds({ judge, base }: Fair) {
  const ending = new AbortController();
  const heard: number[] = Array.from({ length: FEEDS }, () => -1);
  const waiting = new Set<() => void>();
  for (let index = 0; index < FEEDS; index++) {
    const answer = await judge.fetch("GET", `${base}/live?after=0`, undefined, ending.signal);
    const text = new TextDecoder();
    void (async () => {
      for await (const chunk of answer.body as unknown as AsyncIterable<Uint8Array>)
        for (const [, data] of text.decode(chunk).matchAll(/^event: range\ndata: (.*)$/gm)) {
          heard[index] = JSON.parse(data as string).holds.length;
          for (const look of [...waiting]) look();
        }
    })().catch(() => {});
  }
  const all = (holds: number) =>
    new Promise<number>((resolve) => {
      const look = () => {
        if (!heard.every((each) => each === holds)) return;
        waiting.delete(look);
        resolve(performance.now());
      };
      waiting.add(look);
      look();
    });
  return { all, close: () => ending.abort() };
}

const shows = (page: Page, mode: "hold" | "not") =>
  page
    .waitForFunction(
      (wanted: string) =>
        (document.querySelector("[data-range]")?.getAttribute("data-range") === "hold") ===
        (wanted === "hold"),
      mode,
      { polling: "raf" },
    )
    .then(() => performance.now());

const told: { what: string; feeds: number[]; pages: number[]; answers: number[]; unstored: number }[] = [];

async function measure(
  what: string,
  fair: Fair,
  presses: number,
  around: { before?: () => Promise<void>; after?: () => void; stored: boolean } = { stored: true },
): Promise<void> {
  const feeds = await openFeeds(fair);
  const browser = await chromium.launch(CHROMIUM);
  const pages: Page[] = [];
  for (const path of PAGES) {
    const context = await browser.newContext({ baseURL: fair.url });
    await context.addCookies([{ ...fair.judge.session, url: fair.url }]);
    const page = await context.newPage();
    await page.goto(`${fair.base}/${path}`, { waitUntil: "load" });
    await page.locator('[data-range="cold"]').waitFor();
    pages.push(page);
  }
  const result = { what, feeds: [] as number[], pages: [] as number[], answers: [] as number[] };
  let unstored = 0;
  for (let press = 0; press < presses; press++) {
    await around.before?.();
    const shown = pages.map((page) => shows(page, "hold"));
    const heard = feeds.all(1);
    const start = performance.now();
    const answer = await fair.judge.ask<HoldAnswer>("POST", `${fair.base}/range/hold`, {});
    result.answers.push(performance.now() - start);
    if (!answer.stored) unstored++;
    result.feeds.push((await heard) - start);
    for (const at of await Promise.all(shown)) result.pages.push(at - start);
    around.after?.();
    await lift(fair);
    await Promise.all([feeds.all(0), ...pages.map((page) => shows(page, "not"))]);
  }
  feeds.close();
  await browser.close();
  if (around.stored !== (unstored === 0)) throw new Error(`${what}: ${unstored} holds could not be stored.`);
  told.push({ ...result, unstored });
}

/** Once what could not be stored has been. */
async function lift({ officer, base }: Fair): Promise<void> {
  for (;;) {
    const { holds } = await officer.ask<RangeView>("GET", `${base}/range`);
    const lifted = await officer
      .ask("POST", `${base}/range/lift`, { holds: holds.map(({ id }) => id) })
      .then(() => true)
      .catch(() => false);
    if (lifted) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

/** Twenty judges who save until it is called. */
function saving({ savers, shots, base }: Fair): () => Promise<void> {
  let over = false;
  const done = savers.map(async (saver, index) => {
    for (let turn = 0, last = ""; !over; turn++) {
      const shot = shots[index] as ShotInfo;
      const fix = {
        outcome: "landed",
        method: "bearing-distance",
        bearing: shot.bearing,
        distance: 60 + (turn % 50) / 10,
      };
      const body = { fix, ...(last && { replacesId: last, reason: "Measured again by the benchmark." }) };
      last = (await saver.ask<{ id: string }>("POST", `${base}/shots/${shot.id}/fixes`, body)).id;
    }
  });
  return async () => {
    over = true;
    await Promise.all(done);
  };
}

const signIns = JSON.parse(process.env.FAIRTHROW_TEST_SIGN_INS ?? "[]") as { role: string; code: string }[];
const organiserCode = signIns.find(({ role }) => role === "organiser")?.code ?? "";

const fair = await makeFair(programUrl(), { organiser: organiserCode });
await measure("All quiet", fair, PRESSES);
const stop = saving(fair);
await measure(`${JUDGES} judges who save all the time`, fair, PRESSES);
await stop();

if (process.getuid?.() === 0) {
  const disk = mkdtempSync(join(tmpdir(), "fairthrow-small-disk-"));
  execFileSync("mount", ["-t", "tmpfs", "-o", `size=${SMALL}m`, "tmpfs", disk]);
  atEnd(() => {
    execFileSync("umount", ["-l", disk]);
    rmSync(disk, { recursive: true, force: true });
  });
  try {
    // Beyond localhost no demo is loaded.
    const program = await startProgram({ inside: disk, env: { HOST: "0.0.0.0" } });
    const small = await makeFair(program.url, { setup: program.setupCode ?? "" });
    const filler = join(disk, "filler");
    const fill = async () => {
      const { bavail, bsize } = statfsSync(disk);
      writeFileSync(filler, Buffer.alloc(bavail * bsize));
      // What the database has of its own to write on is used up too, by something as small as a hold.
      const times = { times: { silence: 10, clearLasts: 600, misfireWait: 600 }, reason: "Full" };
      for (let left = 5000; left > 0; left--)
        if (!(await small.officer.ask("PUT", `${small.base}/range/times`, times).catch(() => null))) return;
      throw new Error("The disk does not fill.");
    };
    await measure("The disk full", small, 5, { before: fill, after: () => rmSync(filler), stored: false });
    await program.stop();
  } finally {
    tidyUp();
  }
} else console.log("Not measured with a full disk: that takes root.");

let late = false;
for (const { what, feeds, pages, answers, unstored } of told) {
  const worst = Math.max(...feeds, ...pages);
  const median = (times: number[]) => times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)] as number;
  late ||= worst > LIMIT;
  console.log(
    `${what}: the last of ${FEEDS} feeds after ${median(feeds).toFixed(0)} ms (at most ${Math.max(...feeds).toFixed(0)}), ` +
      `a page after ${median(pages).toFixed(0)} ms (at most ${Math.max(...pages).toFixed(0)}), ` +
      `answered after ${median(answers).toFixed(0)} ms; ${feeds.length} holds, ${unstored} not stored at once.`,
  );
}
if (late) {
  console.error(`A hold is to be everywhere within ${LIMIT} ms.`);
  process.exitCode = 1;
}
