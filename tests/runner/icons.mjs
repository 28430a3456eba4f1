/**
 * `npm run icons` draws the PNG icons in public/ from public/icon.svg, with Chromium. Run it after a change of the
 * drawing; tests/browser/install.test.ts holds them together.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { root } from "../../lib/launch/install.mjs";
import { findChromium } from "./system.mjs";

/** The drawing's own ground, for icons that are cut to any shape. */
const GROUND = "#fdfbf5";
/** `share` of the icon's width that the drawing takes: launchers may cut all beyond 40 % from a maskable one's middle. */
const ICONS = [
  { file: "icon-192.png", size: 192, share: 1, ground: "transparent" },
  { file: "icon-512.png", size: 512, share: 1, ground: "transparent" },
  { file: "icon-maskable-512.png", size: 512, share: 0.75, ground: GROUND },
  { file: "apple-touch-icon.png", size: 180, share: 0.9, ground: GROUND },
];

const drawing = `data:image/svg+xml;base64,${readFileSync(join(root, "public/icon.svg")).toString("base64")}`;
const browser = await chromium.launch({ executablePath: findChromium(), args: ["--no-sandbox"] });
for (const { file, size, share, ground } of ICONS) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(
    `<body style="margin:0;display:grid;place-items:center;height:100vh;background:${ground}"><img width="${size * share}" src="${drawing}">`,
  );
  await page.locator("img").evaluate((image) => image.decode());
  writeFileSync(join(root, "public", file), await page.screenshot({ omitBackground: true }));
  await page.close();
}
await browser.close();
