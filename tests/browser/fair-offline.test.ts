/**
 * Two judges without a network, and a server that dies while they send: over https, by host name, with the
 * certificate that the program made. The server ends with exactly what was entered.
 */
import { createHash, X509Certificate } from "node:crypto";
import { readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { ShotHistory, ShotInfo } from "@/lib/api/contracts";
import { tidyUp } from "../runner/processes.mjs";
import { type Program, startProgram } from "../runner/program.mjs";
import { CHROMIUM, SCREENS, seriousFaults } from "./support";

const HOST = "fair.test";
const https = { HTTPS: "own", HTTPS_NAMES: HOST };

let program: Program;
let browser: Browser;
let origin: string;

beforeAll(async () => {
  program = await startProgram({ env: https });
  origin = `https://${HOST}:${program.port}`;
  const authority = new X509Certificate(readFileSync(join(program.folder, "https/authority.pem")));
  const key = authority.publicKey.export({ type: "spki", format: "der" });
  browser = await chromium.launch({
    ...CHROMIUM,
    args: [
      ...CHROMIUM.args,
      `--host-resolver-rules=MAP ${HOST} 127.0.0.1`,
      // As a phone on which the authority is installed.
      `--ignore-certificate-errors-spki-list=${createHash("sha256").update(key).digest("base64")}`,
    ],
  });
});
afterAll(async () => {
  await browser?.close();
  await program?.kill();
  rmSync(program.folder, { recursive: true, force: true });
  tidyUp();
});

interface Judge {
  context: BrowserContext;
  page: Page;
  /** What was entered, by shot. */
  entered: Map<string, string[]>;
}

/** From a page, since only the browser knows the host. */
const api = <T>(page: Page, path: string): Promise<T> =>
  page.evaluate(async (address) => (await fetch(`/api/v1${address}`)).json(), path) as Promise<T>;

async function judge(label: string): Promise<Judge> {
  const context = await browser.newContext({ baseURL: origin, ...SCREENS.phone });
  const page = await context.newPage();
  await page.goto("/sign-in");
  const code = program.signIns.find((one) => one.label === label)?.code;
  await page.evaluate(async (given) => {
    const answer = await fetch("/api/v1/sign-in", {
      method: "POST",
      headers: { "Content-Type": "application/json", "Idempotency-Key": `sign-in-${crypto.randomUUID()}` },
      body: JSON.stringify({ code: given }),
    });
    if (!answer.ok) throw new Error(await answer.text());
  }, code);
  return { context, page, entered: new Map() };
}

const KINDS = ["metres", "feet", "position", "foul", "misfire", "burst"] as const;

/** Fills in the form as it stands and saves; answers what the server must end up with. */
async function enter(page: Page, shot: ShotInfo, number: number): Promise<string> {
  const kind = KINDS[number % KINDS.length] ?? "foul";
  if (kind === "foul" || kind === "misfire" || kind === "burst") {
    await page.getByRole("radio", { name: new RegExp(kind, "i") }).check();
  } else {
    await page.getByRole("radio", { name: "Landed" }).check();
    if (kind === "position") {
      await page.getByRole("radio", { name: "Satellite position" }).check();
      await page.locator("#position").fill(`47.${100_000 + number}, 11.5`);
    } else {
      // The phone offers what was used last.
      await page.getByRole("radio", { name: "Bearing and distance" }).check();
      await page.locator("#bearing").fill(String(shot.bearing));
      await page
        .locator("#distance")
        .fill(kind === "feet" ? `${150 + number} ft 6 in` : `${40 + number}.25 m`);
    }
  }
  const reason = page.locator("#reason");
  if (await reason.isVisible()) await reason.fill(`Read again, ${number}`);
  await page.getByRole("button", { name: /^Save/ }).click();
  await page.getByRole("heading", { name: /^(Kept on this phone|Saved)/ }).waitFor();
  return kind === "metres" ? `${40 + number}.25` : kind;
}

async function enterAll(who: Judge, path: string, shots: readonly ShotInfo[], from: number) {
  const { page, entered } = who;
  await page.goto(path);
  for (const [index, shot] of shots.entries()) {
    // Every now and then the page is closed and opened again.
    if (index % 3 === 2) await page.reload();
    await page.getByRole("button", { name: new RegExp(`^${shot.entrantNumber} `) }).click();
    const correct = page.getByRole("button", { name: "Correct this entry" });
    await page.locator("#outcome-legend").or(correct).first().waitFor();
    if (await correct.isVisible()) await correct.click();
    const list = entered.get(shot.id) ?? [];
    entered.set(shot.id, [...list, await enter(page, shot, from + index)]);
  }
}

const waiting = (page: Page) =>
  page.getByRole("region", { name: "What is saved where" }).getAttribute("data-waiting");

it("ends with exactly the thirty entries of two phones without a network, the server killed twice", async () => {
  const [first, second] = [await judge("Judge 1"), await judge("Judge 2")];
  const { contests } = await api<{ contests: { slug: string }[] }>(first.page, "/contests");
  const base = `/contests/${contests[0]?.slug}`;
  const round = async (number: number) =>
    (await api<{ shots: ShotInfo[] }>(first.page, `${base}/shots?round=${number}`)).shots;
  const rounds = [await round(1), await round(2), await round(3)];
  const [one = [], two = [], three = []] = rounds;
  const before = await recorded(first.page, base, rounds.flat());

  for (const { page, context } of [first, second]) {
    await page.goto(`${base}/judge`);
    await page.getByText(/open from this phone/).waitFor();
    expect(await seriousFaults(page)).toEqual([]);
    await context.setOffline(true);
  }
  await Promise.all([
    enterAll(first, `${base}/judge`, three, 0).then(() =>
      enterAll(first, `${base}/judge?round=1`, one.slice(0, 4), 8),
    ),
    enterAll(second, `${base}/judge?round=2`, two, 100).then(() =>
      enterAll(second, `${base}/judge?round=1`, one.slice(4), 108),
    ),
  ]);
  for (const { page } of [first, second]) {
    await page.reload();
    await expect.poll(() => waiting(page)).toBe("12");
    expect(await page.getByText("12 entries are on this phone").isVisible()).toBe(true);
    // What else a judge needs opens too.
    for (const [path, heading] of [
      ["/map", "Site map"],
      ["/standings", "Standings"],
      ["/walk", "Walk the zone"],
    ]) {
      await page.goto(`${base}${path}`);
      await page.getByRole("heading", { level: 1, name: new RegExp(heading ?? "") }).waitFor();
    }
    await page.goto(`${base}/judge`);
  }

  await sendThroughADeath([first, second]);
  // What the phones have learned of is corrected once more.
  for (const { page, context } of [first, second]) {
    await page.goto(`${base}/judge`);
    await page.getByText(/open from this phone/).waitFor();
    await context.setOffline(true);
  }
  await enterAll(first, `${base}/judge`, three.slice(0, 3), 200);
  await enterAll(second, `${base}/judge?round=2`, two.slice(0, 3), 203);
  await sendThroughADeath([first, second]);

  const after = await recorded(first.page, base, rounds.flat());
  const all = [first, second].flatMap(({ entered }) => [...entered.values()].flat());
  expect(all).toHaveLength(30);
  for (const { id } of rounds.flat()) {
    const wanted = [first, second].flatMap(({ entered }) => entered.get(id) ?? []);
    const added = (after.get(id) ?? []).slice(before.get(id)?.length ?? 0);
    expect(added.map(({ outcome }) => outcome)).toEqual(
      wanted.map((what) => (["foul", "misfire", "burst"].includes(what) ? what : "landed")),
    );
    for (const [index, what] of wanted.entries())
      if (/^\d/.test(what)) expect(added[index]?.mark).toBe(Number(what));
  }
}, 300_000);

/** Every fix of the shots, oldest first. */
async function recorded(page: Page, base: string, shots: readonly ShotInfo[]) {
  const found = new Map<string, ShotHistory["fixes"]>();
  for (const { id } of shots) {
    const { fixes } = await api<ShotHistory>(page, `${base}/shots/${id}`);
    found.set(id, fixes.toReversed());
  }
  return found;
}

/** The network returns, the server is cut off in the middle of it, and starts again. */
async function sendThroughADeath(judges: readonly Judge[]): Promise<void> {
  let answered = 0;
  let deadly = () => {};
  const died = new Promise<void>((resolve) => {
    deadly = resolve;
  });
  for (const { page } of judges)
    page.on("response", (response) => {
      if (response.request().method() === "POST" && ++answered === 3) deadly();
    });
  await Promise.all(judges.map(({ context }) => context.setOffline(false)));
  await died;
  await program.kill();
  // Nothing was lost on the phones meanwhile, not even by closing the page.
  for (const { page } of judges) await page.reload();
  program = {
    ...(await startProgram({ env: https, folder: program.folder, port: program.port })),
    signIns: program.signIns,
  };
  for (const { page } of judges) {
    page.removeAllListeners("response");
    await expect.poll(() => waiting(page), { timeout: 90_000 }).toBe("0");
  }
}
