/**
 * Two judges without a network, and a server that dies while they send: over https, by host name, with the certificate
 * that the program made, each phone in a network of its own. The server ends with exactly what was entered, on both
 * databases.
 */
import { rmSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import type { ShotHistory, ShotInfo } from "@/lib/api/contracts";
import { type FixInput, fixSchema, METHODS } from "@/lib/survey";
import { Client } from "@/tests/by-http/client";
import { layFair, newJudges } from "@/tests/by-http/fair";
import { freshPlace } from "@/tests/database";
import { noNetworks } from "@/tests/runner/networks.mjs";
import { tidyUp } from "@/tests/runner/processes.mjs";
import { type Program, startProgram } from "@/tests/runner/program.mjs";
import { entry, FIRING, PEGS, SITE } from "./field/entries";
import { type Phone, phoneInOwnNetwork, phoneOnLoopback } from "./field/phone";
import { fillFix, save } from "./judge-form";
import { seriousFaults } from "./support";

const HOST = "fair.test";
const SLUG = "field";
const BASE = `/contests/${SLUG}`;

const lacking = noNetworks();
if (lacking)
  console.warn(
    `\nNOT PROVEN on this machine: judges' phones in networks of their own, with their links really cut (${lacking}). ` +
      "What follows runs over the loopback interface, in a browser that is told to be offline. Run it as root on Linux.\n",
  );

interface Judge {
  phone: Phone;
  page: Page;
  /** What was entered, by shot. */
  entered: Map<string, FixInput[]>;
}

/** What is closed when the test is over, the last one first. */
type WhenDone = (close: () => Promise<void> | void) => void;
afterAll(tidyUp);

/** From a page, since only the phone knows the host. */
const api = <T>(page: Page, path: string): Promise<T> =>
  page.evaluate(async (address) => (await fetch(`/api/v1${address}`)).json(), path) as Promise<T>;

async function judge(program: Program, code: string, whenDone: WhenDone): Promise<Judge> {
  const { port, folder } = program;
  const where = { host: HOST, port, authority: join(folder, "https/authority.pem") };
  const phone = await (lacking ? phoneOnLoopback(where) : phoneInOwnNetwork(where));
  whenDone(phone.close);
  const page = await phone.context.newPage();
  await page.goto("/sign-in");
  await page.evaluate(async (given) => {
    const answer = await fetch("/api/v1/sign-in", {
      method: "POST",
      headers: { "Content-Type": "application/json", "Idempotency-Key": `sign-in-${crypto.randomUUID()}` },
      body: JSON.stringify({ code: given }),
    });
    if (!answer.ok) throw new Error(await answer.text());
  }, code);
  return { phone, page, entered: new Map() };
}

async function enterAll(
  { page, entered }: Judge,
  path: string,
  shots: readonly ShotInfo[],
  from: number,
  pegs: Record<string, string>,
) {
  await page.goto(path);
  for (const [index, shot] of shots.entries()) {
    // Every now and then the page is closed and opened again.
    if (index % 3 === 2) await page.reload();
    await page.getByRole("button", { name: new RegExp(`^${shot.entrantNumber} `) }).click();
    const correct = page.getByRole("button", { name: "Correct this entry" });
    await page.locator("#outcome-legend").or(correct).first().waitFor();
    if (await correct.isVisible()) await correct.click();
    const { fix, words } = entry(from + index, pegs);
    await fillFix(page, fix, words);
    const reason = page.locator("#reason");
    if (await reason.isVisible()) await reason.fill(`Read again, ${from + index}`);
    await save(page).click();
    await page.getByRole("heading", { name: /^(Kept on this phone|Saved)/ }).waitFor();
    entered.set(shot.id, [...(entered.get(shot.id) ?? []), fix]);
  }
}

const waiting = (page: Page) =>
  page.getByRole("region", { name: "What is saved where" }).getAttribute("data-waiting");

it.for(["sqlite", "postgresql"] as const)(
  "on %s the server ends with exactly the thirty entries of two phones without a network, killed twice while they sent",
  { timeout: 300_000 },
  async (engine, { onTestFinished: whenDone }) => {
    const place = await freshPlace(engine);
    whenDone(place.remove);
    const open = { DATABASE_URL: place.url, HOST: "0.0.0.0" };
    const env = { ...open, HTTPS: "own", HTTPS_NAMES: HOST };
    // The fair is laid out over plain http; the phones find the program again over https.
    const first = await startProgram({ env: open });
    whenDone(() => rmSync(first.folder, { recursive: true, force: true }));
    const { shots, pegs, codes } = await laidOut(first);
    await first.stop();
    let program = await startProgram({ env, folder: first.folder, port: first.port });
    whenDone(() => program.kill());
    const again = async () => {
      await program.kill();
      return async () => {
        program = await startProgram({ env, folder: first.folder, port: first.port });
      };
    };

    const judges = await Promise.all(codes.map((code) => judge(program, code, whenDone)));
    const [one, two] = judges as [Judge, Judge];
    const round = (number: number) => shots.filter((shot) => shot.round === number);
    await goOffline(judges, ["/judge", "/judge?round=2"]);
    await Promise.all([
      enterAll(one, `${BASE}/judge?round=3`, round(3), 0, pegs).then(() =>
        enterAll(one, `${BASE}/judge?round=1`, round(1).slice(0, 4), 8, pegs),
      ),
      enterAll(two, `${BASE}/judge?round=2`, round(2), 12, pegs).then(() =>
        enterAll(two, `${BASE}/judge?round=1`, round(1).slice(4), 20, pegs),
      ),
    ]);
    for (const { page } of judges) await knowsItAll(page);
    await sendThroughADeath(judges, again);

    // What the phones have learned of is corrected once more.
    await goOffline(judges, ["/judge?round=3", "/judge?round=2"]);
    await Promise.all([
      enterAll(one, `${BASE}/judge?round=3`, round(3).slice(0, 3), 24, pegs),
      enterAll(two, `${BASE}/judge?round=2`, round(2).slice(0, 3), 27, pegs),
    ]);
    await sendThroughADeath(judges, again);

    const all = judges.flatMap(({ entered }) => [...entered.values()].flat());
    expect(all).toHaveLength(30);
    const methods = new Set(all.map((fix) => (fix.outcome === "landed" ? fix.method : fix.outcome)));
    expect([...methods].sort()).toEqual(
      [...METHODS.map(({ method }) => method), "foul", "misfire", "burst"].sort(),
    );
    for (const { id } of shots) {
      const { fixes } = await api<ShotHistory>(one.page, `${BASE}/shots/${id}`);
      const wanted = judges.flatMap(({ entered }) => entered.get(id) ?? []);
      expect(fixes.toReversed().map(({ input }) => rounded(input))).toEqual(
        wanted.map((fix) => rounded(fixSchema.parse(withSite(fix)))),
      );
    }
  },
);

/** A contest at the field of the survey tests: eight entrants, three rounds, four pegs, two judges. */
async function laidOut({ port, setupCode }: Program) {
  const organiser = new Client(`http://localhost:${port}/api/v1`);
  const contest = { slug: SLUG, name: "Field", date: "2031-10-04", ...FIRING, declination: SITE.declination };
  const made = await organiser.ask<{ badge: { code: string } }>("POST", "/setup", { setupCode, contest });
  await organiser.signIn(made.badge.code);
  const letters = Object.keys(PEGS);
  const { shots, pegIds } = await layFair(organiser, SLUG, {
    entrants: 8,
    rounds: 3,
    place: FIRING,
    bearing: SITE.centreline ?? 0,
    pegs: Object.values(PEGS).map(({ name, latitude, longitude, height }) => ({
      name,
      latitude,
      longitude,
      height,
    })),
  });
  const pegs = Object.fromEntries(letters.map((letter, index) => [letter, pegIds[index] as string]));
  return { shots, pegs, codes: await newJudges(organiser, SLUG, 2) };
}

/** Each opens a page while there is a network, until it says that pages open from this phone. */
async function goOffline(judges: readonly Judge[], paths: readonly string[]): Promise<void> {
  for (const [index, { page, phone }] of judges.entries()) {
    await page.goto(`${BASE}${paths[index]}`);
    await page.getByText(/open from this phone/).waitFor();
    expect(await seriousFaults(page)).toEqual([]);
    await phone.cut();
    await expect.poll(() => page.evaluate(() => navigator.onLine)).toBe(false);
  }
}

/** Twelve entries wait, and what else a judge needs opens too. */
async function knowsItAll(page: Page): Promise<void> {
  await page.reload();
  await expect.poll(() => waiting(page)).toBe("12");
  expect(await page.getByText("12 entries are on this phone").isVisible()).toBe(true);
  for (const [path, heading] of [
    ["/map", /^Site map/],
    ["/standings", /^Standings/],
    ["/walk", /^Walk the zone/],
  ] as const) {
    await page.goto(`${BASE}${path}`);
    await page.getByRole("heading", { level: 1, name: heading }).waitFor();
  }
  await page.goto(`${BASE}/judge`);
}

/** The network returns, the server is killed after its third answer, and starts again. */
async function sendThroughADeath(
  judges: readonly Judge[],
  kill: () => Promise<() => Promise<void>>,
): Promise<void> {
  let answered = 0;
  let deadly = () => {};
  const died = new Promise<void>((resolve) => {
    deadly = resolve;
  });
  for (const { page } of judges)
    page.on("response", (response) => {
      if (response.request().method() === "POST" && ++answered === 3) deadly();
    });
  await Promise.all(judges.map(({ phone }) => phone.mend()));
  await died;
  const start = await kill();
  // Nothing was lost on the phones meanwhile, not even by closing the page.
  for (const { page } of judges) await page.reload();
  await start();
  for (const { page } of judges) {
    page.removeAllListeners("response");
    await expect.poll(() => waiting(page), { timeout: 90_000 }).toBe("0");
  }
}

/** The form adds the site's declination to what is counted from magnetic north. */
function withSite<T>(value: T): T {
  if (Array.isArray(value)) return value.map((one) => withSite(one)) as T;
  if (typeof value !== "object" || value === null) return value;
  const inner = Object.fromEntries(Object.entries(value).map(([key, one]) => [key, withSite(one)]));
  return (
    "north" in inner && inner.north === "magnetic" ? { declination: SITE.declination, ...inner } : inner
  ) as T;
}

/** Feet become metres with the last digit of a double. */
function rounded(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (_, one) => (typeof one === "number" ? Number(one.toFixed(9)) : one)),
  );
}
