/** The program as an app on a phone: Chromium offers to install it, and its icons are the drawing. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { CHROMIUM, programUrl, SCREENS } from "./support";

// Nothing can be installed in the nameless contexts of the other tests.
let profile: string;
let context: BrowserContext;
beforeAll(async () => {
  profile = mkdtempSync(join(tmpdir(), "fairthrow-profile-"));
  context = await chromium.launchPersistentContext(profile, {
    ...CHROMIUM,
    baseURL: programUrl(),
    ...SCREENS.phone,
  });
});
afterAll(async () => {
  await context?.close();
  rmSync(profile, { recursive: true, force: true });
});

it("can be installed: Chromium misses nothing", async () => {
  const page = await context.newPage();
  await page.goto("/");
  const devtools = await context.newCDPSession(page);
  const { errors, data } = await devtools.send("Page.getAppManifest");
  expect(errors).toEqual([]);
  const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
  expect(installabilityErrors).toEqual([]);
  // Stays the same app wherever it starts later.
  expect(await devtools.send("Page.getAppId")).toMatchObject({ appId: `${programUrl()}/` });

  const { icons } = JSON.parse(data ?? "{}") as { icons: { src: string; sizes: string; purpose: string }[] };
  expect(icons.map(({ sizes, purpose }) => `${purpose} ${sizes}`)).toEqual(
    expect.arrayContaining(["any 192x192", "any 512x512", "maskable 512x512"]),
  );
  const apple = page.locator('link[rel="apple-touch-icon"]');
  expect(await apple.getAttribute("href")).toBe("/apple-touch-icon.png");
});

it.each([
  ["icon-192.png", 192, 1],
  ["icon-512.png", 512, 1],
  ["icon-maskable-512.png", 512, 0.75],
  ["apple-touch-icon.png", 180, 0.9],
])("%s is what npm run icons draws of icon.svg", async (file, size, share) => {
  const page = await context.newPage();
  await page.goto("/");
  const difference = await page.evaluate(
    async ([file, size, share]) => {
      const pixels = async (src: string, width: number, side: number) => {
        const image = new Image();
        image.src = src;
        await image.decode();
        const canvas = document.createElement("canvas");
        canvas.width = canvas.height = side;
        const drawing = canvas.getContext("2d") as CanvasRenderingContext2D;
        drawing.fillStyle = "#fdfbf5";
        drawing.fillRect(0, 0, side, side);
        drawing.drawImage(image, (side - width) / 2, (side - width) / 2, width, width);
        return { of: image.naturalWidth, data: drawing.getImageData(0, 0, side, side).data };
      };
      const png = await pixels(`/${file}`, size, size);
      const svg = await pixels("/icon.svg", size * share, size);
      let sum = 0;
      png.data.forEach((value, index) => {
        sum += Math.abs(value - (svg.data[index] ?? 0));
      });
      return { size: png.of, mean: sum / png.data.length };
    },
    [file, size, share] as [string, number, number],
  );
  expect(difference.size).toBe(size);
  // Of 255: edges may fall differently in another Chromium.
  expect(difference.mean).toBeLessThan(1);
  await page.close();
});
