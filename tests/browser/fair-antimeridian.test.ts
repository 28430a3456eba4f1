/**
 * A fair of its own on the antimeridian, with a machine that has no sheet: its maps are in one piece and are drawn on
 * there as anywhere; and no page or paper is silent about the machine whose zone is missing.
 */
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { ContestOverview } from "@/lib/api/contracts";
import { direct, inverse } from "@/lib/earth";
import { newTestKey, ownContest, realFaults } from "./fair-visitors";
import {
  closeBrowser,
  openPage,
  programUrl,
  SCREEN_NAMES,
  SCREENS,
  type Screen,
  seriousFaults,
  sidewaysScroll,
  visitor,
} from "./support";

const SLUG = `far-side-${process.pid}`;
const MIDDLE = { latitude: -17.3, longitude: 179.9998 };
const place = (bearing: number, distance: number) => direct(MIDDLE, bearing, distance);
const position = (bearing: number, distance: number) => {
  const { latitude, longitude } = place(bearing, distance);
  return [longitude, latitude];
};
const path = (part: string) => `/contests/${SLUG}${part}`;

let organiser: BrowserContext;
beforeAll(async () => {
  organiser = await visitor("desk");
  const lay = await ownContest(organiser, {
    slug: SLUG,
    name: "Far Side Fair",
    date: "2031-10-04",
    ...MIDDLE,
    policy: { margin: 2.083531368409229 },
  });
  const { id: divisionId } = await lay("/divisions", { name: "Open" });
  const { id: entrantId } = await lay("/entrants", { divisionId, name: "Tern Crew" });
  const { id: firingPointId } = await lay("/firing-points", place(90, 40));
  await lay("/features", {
    kind: "road",
    name: "Bent lane",
    geometry: {
      type: "LineString",
      coordinates: [position(315, 160), position(0, 60), position(45, 160), position(90, 190)],
    },
  });
  const declaration = {
    machine: { kind: "measured", releaseSpeed: 25, launchAngle: 42, launchHeight: 2 },
    projectile: { mass: 3, diameter: 0.2 },
    tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
  };
  for (const [name, body] of [
    ["Tern", { declaration }],
    ["Unmeasured", {}],
  ] as const) {
    const { id } = await lay("/machines", { entrantId, name, ...body });
    const answer = await organiser.request.patch(`/api/v1${path(`/machines/${id}/placement`)}`, {
      data: { firingPointId, bearing: 270 },
      headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
    });
    if (!answer.ok()) throw new Error(await answer.text());
  }
  // The zones hold their answer back while the other sheet is computed.
  await vi.waitFor(
    async () => {
      const { without } = await (await organiser.request.get(`/api/v1${path("/zones")}`)).json();
      expect(without.map(({ machineName }: { machineName: string }) => machineName)).toEqual(["Unmeasured"]);
    },
    { timeout: 60_000, interval: 500 },
  );
});
afterAll(async () => {
  await organiser?.close();
  await closeBrowser();
});

/** What the scale bar says, m. */
async function scaleOf(page: Page): Promise<number> {
  const text = (await page.locator(".leaflet-control-scale-line").first().textContent()) ?? "";
  const [, value, unit] = /([\d.]+) (k?m)/.exec(text) ?? [];
  return Number(value) * (unit === "km" ? 1000 : 1);
}

/** How much of the map's width a drawing takes, none of it outside. */
async function widthOf(page: Page, selector: string): Promise<number> {
  const map = await page.locator('[data-ready="yes"]').first().boundingBox();
  const drawn = await page.locator(selector).first().boundingBox();
  if (!map || !drawn) throw new Error(`${selector} is not drawn.`);
  expect(drawn.x).toBeGreaterThan(map.x - 5);
  expect(drawn.x + drawn.width).toBeLessThan(map.x + map.width + 5);
  return drawn.width / map.width;
}

async function open(part: string, screen: Screen = "desk") {
  const opened = await openPage(organiser, path(part));
  opened.page.on("dialog", (dialog) => dialog.accept());
  if (screen === "phone") {
    await opened.page.setViewportSize(SCREENS.phone.viewport);
    await opened.page.reload();
  }
  return opened;
}

describe.each(SCREEN_NAMES)("maps on the antimeridian, %s", (screen) => {
  it("show the whole site, zones and lines, none of them filled", async () => {
    const { page, faults } = await open("/map", screen);
    await page.locator('[data-ready="yes"]').waitFor();
    expect(await scaleOf(page)).toBeLessThanOrEqual(200);
    expect(await widthOf(page, ".leaflet-zones-pane path")).toBeGreaterThan(0.2);
    expect(await widthOf(page, ".leaflet-ground-pane path")).toBeGreaterThan(0.2);
    const fills = await page
      .locator(".leaflet-ground-pane path")
      .evaluateAll((paths) => paths.map((each) => getComputedStyle(each).fill));
    // The lane and its light middle.
    expect(fills).toEqual(["none", "none"]);
    expect(realFaults(faults)).toEqual([]);
    await page.close();
  });

  it("take what is drawn there, and show it where it was drawn", async () => {
    const { page } = await open("/organise/site", screen);
    await page.locator('[data-ready="yes"]').waitFor();
    await page.locator("#draw-what").selectOption("control-point");
    await page.getByRole("button", { name: "Draw it" }).click();
    await page.locator('[data-ready="yes"]').scrollIntoViewIfNeeded();
    const box = await page.locator('[data-ready="yes"]').boundingBox();
    if (!box) throw new Error("There is no map.");
    // The site lies across the antimeridian: this is east of it, where longitudes are negative.
    const tapped = { x: box.x + box.width * 0.8, y: box.y + box.height * 0.7 };
    await page.mouse.click(tapped.x, tapped.y);
    await page.getByLabel("Name").first().fill(`Peg ${screen}`);
    await page.getByRole("button", { name: /^Save/ }).click();
    await page
      .getByText(/is saved|saved/i)
      .first()
      .waitFor();
    const overview = (await (await organiser.request.get(`/api/v1${path("")}`)).json()) as ContestOverview;
    const peg = overview.controlPoints.find(({ name }) => name === `Peg ${screen}`);
    if (!peg) throw new Error("The peg was not saved.");
    expect(peg.longitude).toBeLessThan(-179.99);
    expect(inverse(MIDDLE, peg).distance).toBeLessThan(400);
    const label = page.locator(".leaflet-labels-pane", { hasText: `Peg ${screen}` });
    await label.waitFor({ state: "attached" });
    await page.close();
  });

  it("place a machine by dragging it", async () => {
    const { page } = await open("/placing", screen);
    await page.locator('[data-ready="yes"]').waitFor();
    await page.locator("#machine").selectOption({ label: "Tern (1 Tern Crew)" });
    expect(await scaleOf(page)).toBeLessThanOrEqual(200);
    expect(await widthOf(page, ".leaflet-zones-pane path")).toBeGreaterThan(0.1);
    const handle = page.locator(".leaflet-marker-draggable").first();
    await handle.scrollIntoViewIfNeeded();
    const from = await handle.boundingBox();
    if (!from) throw new Error("The machine has no handle.");
    const at = { x: from.x + from.width / 2, y: from.y + from.height / 2 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x - 16, at.y + 20, { steps: 4 });
    await page.mouse.up();
    await page.getByText("Tern: not saved").first().waitFor();
    const to = await handle.boundingBox();
    expect(to && Math.abs(to.x - (from.x - 16))).toBeLessThan(4);
    expect(await widthOf(page, ".leaflet-zones-pane path")).toBeGreaterThan(0.1);
    await page.close();
  });
});

describe("a machine without a zone", () => {
  it("is named on the map, where the zones together are told, and beside what they touch", async () => {
    const { page } = await open("/map");
    const touches = page.getByRole("region", { name: "What the zones touch" });
    expect(await touches.textContent()).toContain("no zone is drawn for Unmeasured");
    const together = page.getByRole("region", { name: "All zones together" });
    expect(await together.textContent()).toContain("Not all: Unmeasured has no zone");
    expect(await page.getByRole("note").filter({ hasText: "no list for Unmeasured" }).count()).toBe(1);
    expect(await seriousFaults(page)).toEqual([]);
    await page.close();
  });

  it("is named on the printed lists in place of its list", async () => {
    const { page } = await open("/stand-clear");
    await page.emulateMedia({ media: "print" });
    await page.getByText("no list for Unmeasured").waitFor();
    expect(await page.locator("main").textContent()).toMatch(/When Tern fires from firing point 1/);
    await page.emulateMedia({ media: "screen" });
    await page.getByText("no zone is drawn for Unmeasured").waitFor();
    expect(await seriousFaults(page)).toEqual([]);
    await page.close();
  });

  it("is named on the range plan's sheet, beside its button, and where it touches; numbers are rounded", async () => {
    const { page } = await open("/range-plan");
    const sheet = page.getByRole("region", { name: "Range plan to scale" });
    await page.getByText("Print on").waitFor();
    expect(await page.getByRole("note").first().textContent()).toContain("no zone is drawn for Unmeasured");
    await page.emulateMedia({ media: "print" });
    const warning = sheet.getByText(/no zone is drawn for Unmeasured/);
    expect(await warning.isVisible()).toBe(true);
    expect(await sheet.textContent()).toContain("No dimensions have been declared yet.");
    const words = await page.locator("main").textContent();
    expect(words).toContain("No zone is drawn for Unmeasured: what it touches is not known.");
    expect(words).toContain("Not known, there is no zone: it must not fire.");
    expect(words).toContain("Margin: 2.084 times");
    expect(words).not.toContain("2.0835");
    await page.emulateMedia({ media: "screen" });
    expect(await seriousFaults(page)).toEqual([]);
    await page.setViewportSize(SCREENS.phone.viewport);
    expect(await sidewaysScroll(page)).toBe(0);
    await page.close();
  });
});
