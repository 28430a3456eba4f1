/**
 * Frames a second of the film on a mid phone: 360 px wide at two pixels a CSS pixel, the processor throttled four times,
 * played at real time from the trigger to the landing. A frame counts when the film has painted another instant in it.
 * Fails below 30 a second. Without a graphics processor the pixels are drawn by the same two cores, as on no phone.
 */
import { chromium } from "playwright-core";
import { CHROMIUM, SCREENS } from "../browser/support";

const SLOWER = 4;
const LEAST = 30; // frames a second

/** ms between the frames in which the clock shows another instant. As text: the runner's own helpers are not in the page. */
const MEASURE = `new Promise((resolve) => {
  const clock = document.querySelector("output");
  const began = performance.now();
  const gaps = [];
  let before = began;
  let shown = "";
  const look = (now) => {
    if (clock.textContent !== shown) {
      shown = clock.textContent;
      gaps.push(now - before);
      before = now;
    }
    if (now - began > 5000) resolve(gaps.slice(2));
    else requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
})`;

const url = process.env.FAIRTHROW_TEST_URL;
if (!url) throw new Error("Run this by npm run bench: it starts the program.");

const browser = await chromium.launch(CHROMIUM);
const context = await browser.newContext({ baseURL: url, ...SCREENS.phone });
const page = await context.newPage();
await page.goto("/workbench/film", { waitUntil: "load" });
const play = page.getByRole("button", { name: "Play", exact: true });
await play.waitFor();
const session = await context.newCDPSession(page);
await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });

let slow = false;
for (const [speed, name] of [
  ["1", "real time"],
  ["16", "16 times slower"],
] as const) {
  await page.locator(`input[name="film-speed"][value="${speed}"]`).check({ force: true });
  await page.getByRole("button", { name: /^Trigger/ }).click();
  await play.click();
  const gaps = (await page.evaluate(MEASURE)) as number[];
  await page.getByRole("button", { name: "Pause", exact: true }).click();
  const total = gaps.reduce((sum, gap) => sum + gap, 0);
  const rate = (1000 * gaps.length) / total;
  const sorted = gaps.toSorted((a, b) => a - b);
  const late = sorted[Math.floor(0.95 * (sorted.length - 1))] as number;
  console.log(
    `film at ${name}, throttled ${SLOWER} times: ${rate.toFixed(0)} frames a second, 19 of 20 within ${late.toFixed(0)} ms`,
  );
  if (rate < LEAST) slow = true;
}
await browser.close();
if (slow) {
  console.error(`The film plays at fewer than ${LEAST} frames a second.`);
  process.exitCode = 1;
}
