/**
 * Two pages of the demo fair in Chromium: how long after a save an open page of standings shows it (fails at a median
 * above 1 s), and how long the frames take while a machine is dragged over the map and its zone is drawn with each
 * (fails at a median above a thirtieth of a second).
 */
import { performance } from "node:perf_hooks";
import { type Browser, chromium } from "playwright-core";
import type { ContestOverview, FixAnswer, ShotInfo } from "../../lib/api/contracts";
import { CHROMIUM, programUrl, SCREENS } from "../browser/support";
import { Client } from "../by-http/client";

const SAVES = 20;
const FRAMES = 120;
const MOST = { shown: 1000, frame: 1000 / 30 };

const api = `${programUrl().replace(/\/$/, "")}/api/v1`;
const signIns = JSON.parse(process.env.FAIRTHROW_TEST_SIGN_INS ?? "[]") as { role: string; code: string }[];
const codeOf = (role: string) => signIns.find((one) => one.role === role)?.code ?? "";

const quantile = (times: number[], share: number) =>
  times.toSorted((a, b) => a - b)[Math.floor(share * (times.length - 1))] as number;
const tell = (what: string, times: number[]) => {
  const [median, late] = [quantile(times, 0.5), quantile(times, 0.95)];
  console.log(
    `${what}: median ${median.toFixed(1)} ms, 95 % within ${late.toFixed(1)} ms, of ${times.length}.`,
  );
  return median;
};

/** ms from sending a save to the frame that shows it on a page of standings that is open elsewhere. */
async function shownAfter(browser: Browser): Promise<number[]> {
  const judge = new Client(api);
  const slug = await judge.signIn(codeOf("judge"));
  const { shots } = await judge.ask<{ shots: ShotInfo[] }>("GET", `/contests/${slug}/shots`);
  const shot = shots.find(({ fix }) => fix === null);
  if (!shot) throw new Error("The demo has no open shot.");
  const context = await browser.newContext({ baseURL: programUrl(), ...SCREENS.desk });
  const page = await context.newPage();
  await page.goto(`/contests/${slug}/standings`, { waitUntil: "load" });
  await page.getByText("● Live").waitFor();
  const times: number[] = [];
  let replacesId: string | undefined;
  for (let turn = 0; turn < SAVES; turn++) {
    const distance = 90 + turn / 10;
    const shown = page.waitForFunction(
      (mark: string) => document.body.textContent?.includes(mark),
      `${distance.toFixed(2)} m`,
      { polling: "raf" },
    );
    const start = performance.now();
    const answer = await judge.ask<FixAnswer>("POST", `/contests/${slug}/shots/${shot.id}/fixes`, {
      fix: {
        outcome: "landed",
        method: "bearing-distance",
        bearing: shot.bearing,
        distance: distance + 0.005,
      },
      ...(replacesId && { replacesId, reason: "Measured again by the benchmark." }),
    });
    await shown;
    times.push(performance.now() - start);
    replacesId = answer.id;
  }
  await context.close();
  return times;
}

/** ms from frame to frame while the pointer drags the first machine, one step before every frame. */
async function framesOfDrag(browser: Browser): Promise<number[]> {
  const organiser = new Client(api);
  const code = codeOf("organiser");
  const slug = await organiser.signIn(code);
  const { machines } = await organiser.ask<ContestOverview>("GET", `/contests/${slug}`);
  const context = await browser.newContext({ baseURL: programUrl(), ...SCREENS.desk });
  await context.request.post("/api/v1/sign-in", {
    data: { code },
    headers: { "Idempotency-Key": `bench-fair-pages-${Date.now()}`, Origin: programUrl() },
  });
  const page = await context.newPage();
  await page.goto(`/contests/${slug}/placing?machine=${machines[0]?.id}`, { waitUntil: "load" });
  await page.locator('[data-ready="yes"][data-drawn]').waitFor();
  const handle = await page.locator(".leaflet-marker-draggable").boundingBox();
  if (!handle) throw new Error("The machine has no handle.");
  const [x, y] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 12, y);
  const times = await page.evaluate(
    async ([fromX, fromY, frames]) => {
      const at: number[] = [];
      for (let frame = 0; frame < frames; frame++) {
        const move = {
          clientX: fromX + (frame % 45),
          clientY: fromY + (frame % 9),
          bubbles: true,
          buttons: 1,
        };
        document.dispatchEvent(new MouseEvent("mousemove", move));
        at.push(await new Promise<number>(requestAnimationFrame));
      }
      return at.slice(1).map((time, index) => time - (at[index] as number));
    },
    [x + 12, y, FRAMES] as const,
  );
  await context.close();
  return times;
}

const browser = await chromium.launch(CHROMIUM);
const shown = tell("A save on an open page of standings", await shownAfter(browser));
const frame = tell("A frame while a machine is dragged with its zone", await framesOfDrag(browser));
await browser.close();
if (shown > MOST.shown || frame > MOST.frame) {
  console.error("Slower than these pages may be.");
  process.exitCode = 1;
}
