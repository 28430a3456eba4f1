/**
 * The slider's answer in Chromium, from the thumb's event to the next frame after the three distances stand on the
 * page: unthrottled and with the page's processor throttled four times. Throttling reaches no worker, so each is
 * measured without workers too, where physics and page share the one throttled thread: the worst that it can be.
 * Fails where the median is above 50 ms, or 200 ms throttled.
 */
import { chromium, type Page } from "playwright-core";
import { machineKind } from "../../lib/throw";
import { CHROMIUM, programUrl, SCREENS } from "../browser/support";

const KINDS = ["hinged-counterweight", "floating-arm", "torsion"] as const;
const LIMITS = [
  { rate: 1, most: 50 },
  { rate: 4, most: 200 },
] as const;
const MOVES = 60;

/** A link to the kind's example: every kind starts from the same numbers everywhere. */
function linkTo(kind: (typeof KINDS)[number]): string {
  const { example, exampleProjectile } = machineKind(kind);
  const parameters = new URLSearchParams({ kind });
  if (kind === "torsion") parameters.set("machine.holder", "sling");
  for (const [of, values] of Object.entries({ machine: example, projectile: exampleProjectile })) {
    for (const [name, value] of Object.entries(values)) {
      if (typeof value === "number") parameters.set(`${of}.${name}`, String(value));
    }
  }
  return `/workbench/tuning#${parameters}`;
}

/** ms from each of many moves of the first slider to its answer, sorted. */
async function movesOf(page: Page): Promise<number[]> {
  const times = await page.evaluate(async (moves: number) => {
    const slider = document.querySelector<HTMLInputElement>("input[type=range]");
    const strip = document.querySelector('[aria-label="What it throws now"]');
    if (!slider || !strip) throw new Error("There is no slider.");
    const write = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set;
    const shown = () => strip.querySelector("dd")?.firstChild?.textContent ?? "";
    const answered = () => strip.querySelector("dl:not(.live-stale)") !== null;
    const times: number[] = [];
    for (let i = 0; i < moves + 10; i++) {
      const share = 0.3 + 0.4 * ((i * 0.618034) % 1);
      const before = shown();
      const start = performance.now();
      write?.call(slider, String(Number(slider.min) + share * (Number(slider.max) - Number(slider.min))));
      slider.dispatchEvent(new Event("input", { bubbles: true }));
      await new Promise<void>((resolve) => {
        const look = () => {
          if (!answered() || shown() === before) return;
          observer.disconnect();
          requestAnimationFrame(() => resolve());
        };
        const observer = new MutationObserver(look);
        observer.observe(strip, { subtree: true, childList: true, characterData: true, attributes: true });
        // Two settings may throw equally far to the digit shown.
        setTimeout(() => {
          observer.disconnect();
          resolve();
        }, 3000);
      });
      if (i >= 10) times.push(performance.now() - start);
      await new Promise((resolve) => setTimeout(resolve, 60));
    }
    return times.filter((time) => time < 3000);
  }, MOVES);
  return times.sort((a, b) => a - b);
}

const browser = await chromium.launch(CHROMIUM);
let slow = false;
for (const kind of KINDS) {
  for (const workers of [true, false]) {
    const context = await browser.newContext({ baseURL: programUrl(), ...SCREENS.phone });
    if (!workers) await context.addInitScript(() => Reflect.deleteProperty(globalThis, "Worker"));
    // What runs this file marks its functions' names; the page knows nothing of that.
    await context.addInitScript("globalThis.__name = (named) => named;");
    const page = await context.newPage();
    await page.goto(linkTo(kind), { waitUntil: "load" });
    await page.getByRole("region", { name: "What it throws now" }).locator("dl:not(.live-stale)").waitFor();
    const session = await context.newCDPSession(page);
    for (const { rate, most } of LIMITS) {
      await session.send("Emulation.setCPUThrottlingRate", { rate });
      const times = await movesOf(page);
      const at = (share: number) => times[Math.floor(share * (times.length - 1))] ?? Number.NaN;
      const where = workers ? "in a worker" : "on the page's thread";
      console.log(
        `${kind.padEnd(22)} slider's answer, throttled ${rate} times, ${where}: median ${at(0.5).toFixed(0)} ms, 95 % ${at(0.95).toFixed(0)} ms of ${times.length}`,
      );
      if (!(at(0.5) <= most)) slow = true;
    }
    await context.close();
  }
}
await browser.close();
if (slow) {
  console.error("Slower than a slider may answer.");
  process.exitCode = 1;
}
