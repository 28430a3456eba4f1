/** What every browser test needs: one Chromium, a phone and a desk, and a look with axe. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from "playwright-core";

export const SCREENS = {
  phone: { viewport: { width: 360, height: 740 }, isMobile: true, hasTouch: true, deviceScaleFactor: 2 },
  desk: { viewport: { width: 1280, height: 900 } },
} as const satisfies Record<string, BrowserContextOptions>;
export type Screen = keyof typeof SCREENS;
export const SCREEN_NAMES = Object.keys(SCREENS) as Screen[];

/** The program under test, a production build with the demo contest; tests/run.mjs starts it. */
export function programUrl(): string {
  const url = process.env.FAIRTHROW_TEST_URL;
  if (!url) throw new Error("FAIRTHROW_TEST_URL names no running program: use `npm test`, which starts one.");
  return url;
}

/** How Chromium is started, by root too, and without a word to anybody else. */
export const CHROMIUM = {
  executablePath: process.env.FAIRTHROW_TEST_CHROMIUM || "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
};

let launched: Promise<Browser> | undefined;
let whole = false;

/** For a test file of what the Chromium without windows has not, such as a compass: before its first visitor. */
export function inWholeChromium(): void {
  whole = true;
}

/** Chromium without its windows where there is one, started once a test file. */
function browser(): Promise<Browser> {
  const headless = whole ? undefined : process.env.FAIRTHROW_TEST_HEADLESS;
  const executablePath = headless || CHROMIUM.executablePath;
  launched ??= chromium.launch({ ...CHROMIUM, executablePath });
  return launched;
}

export async function closeBrowser(): Promise<void> {
  await (await launched)?.close();
  launched = undefined;
}

/** A visitor of their own: nothing kept from another test. Close it when done. */
export async function visitor(screen: Screen, options: BrowserContextOptions = {}): Promise<BrowserContext> {
  return (await browser()).newContext({ baseURL: programUrl(), ...SCREENS[screen], ...options });
}

/** A page that remembers what went wrong in it: errors of scripts and broken loads. */
export async function openPage(
  context: BrowserContext,
  path: string,
): Promise<{ page: Page; faults: string[] }> {
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    // The address says which file was not there.
    if (message.type() === "error") faults.push(`${message.text()} ${message.location().url}`);
  });
  await page.goto(path, { waitUntil: "load" });
  return { page, faults };
}

const axeSource = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

interface AxeResult {
  violations: { id: string; impact: string | null; help: string; nodes: { target: string[] }[] }[];
}

/** What axe finds serious or critical on the page as it stands, one line each. */
export async function seriousFaults(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axeSource);
  // What passes need not be told, node by node, nor brought here: that takes longer than the looking.
  const look =
    'axe.run(document, { resultTypes: ["violations"] }).then(({ violations }) => ({ violations }))';
  const { violations } = (await page.evaluate(look)) as AxeResult;
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(
      ({ id, help, nodes }) => `${id}: ${help} (${nodes.map((node) => node.target.join(" ")).join(", ")})`,
    );
}

/** How far the page is wider than the screen, px: anything but 0 scrolls sideways. */
export const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
