/** The site map: zones and what they touch, with the network off, by keyboard, and in a table that says the same. */
import { afterAll, describe, expect, it } from "vitest";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { zoneDistances } from "@/lib/zones/zone-distances";
import { contestPath, openAs, overviewOf, realFaults, tabTo, zonesOf } from "./fair-visitors";
import { closeBrowser, SCREEN_NAMES, type Screen, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

async function openMap(screen: Screen) {
  const opened = await openAs(null, screen, await contestPath("/map"));
  await opened.page.locator('[data-ready="yes"]').waitFor();
  return opened;
}

const whole = (metres: number) => wholeDistance(metres, "metric", "up");

describe.each(SCREEN_NAMES)("the site map, %s", (screen) => {
  it("draws every zone and lists what one touches, with the network off", async () => {
    const { features } = await zonesOf();
    const { page, context, faults, done } = await openMap(screen);
    await page.getByText("Changes show by themselves").waitFor();
    await context.setOffline(true);
    const zones = page.locator(".leaflet-zones-pane path");
    expect(await zones.count()).toBe(features.length);

    // The demo has a machine whose zone touches something: it is named in words and on the map.
    const touching = features.find(({ properties }) =>
      properties.conflicts.some(({ touches, inConflict }) => touches && inConflict),
    );
    const conflict = touching?.properties.conflicts.find(({ touches, inConflict }) => touches && inConflict);
    if (!touching || !conflict) throw new Error("No zone of the demo touches anything protected.");
    const list = page.getByRole("region", { name: "What the zones touch" });
    const named = list.getByRole("listitem").filter({ hasText: touching.properties.machineName }).first();
    expect(await named.textContent()).toContain(conflict.name);
    expect(await named.textContent()).toMatch(/covers [\d.]+ m²? of|leaves it: [\d.]+ m²|touches it/);
    expect(await page.locator(".leaflet-touches-pane path").count()).toBeGreaterThan(0);

    // One machine alone, with its distances; the colour is not the only sign.
    await page.getByLabel("Zones shown").selectOption(touching.id);
    await expect.poll(() => zones.count()).toBe(1);
    const fill = await zones.first().getAttribute("fill");
    expect(fill).toMatch(/^url\(#.+\)$/);
    expect(await page.locator(`pattern${fill?.slice(4, -1)}`).count()).toBe(1);
    const { exclusion, accuracy } = touching.properties;
    if (!exclusion) throw new Error("The touching zone has no distances.");
    const reaches = zoneDistances(exclusion, accuracy);
    const words = await page.locator(".leaflet-labels-pane").textContent();
    for (const side of ["forward", "backward", "side"] as const) {
      expect(words).toContain(`${side} ${whole(reaches[side])}`);
    }
    expect(words).toContain(`⚠ ${conflict.name}`);
    const card = page.getByRole("article", { name: `Zone of ${touching.properties.machineName}` });
    expect(await card.textContent()).toMatch(
      /failures may exceed this zone.*safety officer and local codes/is,
    );
    expect(await card.textContent()).toContain("What this zone assumes");
    expect(await card.getByRole("listitem").count()).toBeGreaterThan(2);

    // Units, zoom and pan still work.
    const scale = page.locator(".leaflet-control-scale-line").first();
    const before = await scale.textContent();
    for (let i = 0; i < 3; i++) await page.getByRole("button", { name: "Zoom in" }).click();
    await expect.poll(() => scale.textContent()).not.toBe(before);
    await page.getByRole("button", { name: "Whole site" }).click();
    await expect.poll(() => scale.textContent()).toBe(before);
    await page.getByRole("button", { name: /US customary/ }).click();
    await expect
      .poll(() => page.locator(".leaflet-labels-pane").textContent())
      .toContain(wholeDistance(reaches.forward, "us", "up"));
    expect(realFaults(faults)).toEqual([]);
    await done();
  });

  it("says the same in tables, in both unit systems", async () => {
    const [{ features }, overview] = await Promise.all([zonesOf(), overviewOf()]);
    const { page, done } = await openMap(screen);
    const zones = page.getByRole("table", { name: "Keep-out zones" });
    for (const { properties } of features) {
      const row = await zones.getByRole("row").filter({ hasText: properties.machineName }).textContent();
      if (!properties.exclusion) throw new Error(`${properties.machineName} has no zone.`);
      for (const metres of Object.values(zoneDistances(properties.exclusion, properties.accuracy))) {
        expect(row).toContain(`${whole(metres)} (${wholeDistance(metres, "us", "up")})`);
      }
    }
    const drawn = overview.features.filter(({ retired }) => !retired);
    const site = page.getByRole("table", { name: "Site features" });
    expect(await site.getByRole("rowheader").allTextContents()).toEqual(drawn.map(({ name }) => name));
    const points = page.getByRole("table", { name: "Firing points" });
    expect(await points.getByRole("rowheader").count()).toBe(overview.firingPoints.length);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await done();
  });
});

it("outlines all zones as one, lists who stands clear, and draws normal throws on request with their label", async () => {
  const { features } = await zonesOf();
  const { page, done } = await openAs("safety-officer", "phone", await contestPath("/map"));
  await page.locator('[data-ready="yes"]').waitFor();
  const outlines = page.locator(".leaflet-outlines-pane path");
  expect(await outlines.count()).toBe(1);
  expect(await page.getByRole("region", { name: "All zones together" }).textContent()).toMatch(
    /They cover [\d,]+ m²/,
  );

  const { machineId, machineName, standClear } = features[0]?.properties ?? {};
  if (!machineId || !standClear?.[0]) throw new Error("The demo's first machine has nobody to clear.");
  await page.getByLabel("Zones shown").selectOption(machineId);
  await expect.poll(() => outlines.count()).toBe(0);
  const list = page.getByRole("table", { name: `When ${machineName} fires` });
  expect(await list.getByRole("row").count()).toBe(standClear.length + 1);
  expect(await list.textContent()).toContain(standClear[0].name);

  await page.getByRole("button", { name: "Draw where normal throws land" }).click();
  const said = page.getByRole("status").filter({ hasText: "Normal throws only" });
  await said.waitFor();
  await expect.poll(() => outlines.count()).toBe(3);
  expect(await said.textContent()).toContain("never shrinks a zone");
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await page.goto(await contestPath("/stand-clear"));
  await list.waitFor();
  expect(await list.getByRole("img", { name: "box to tick on paper" }).count()).toBe(standClear.length);
  expect(await sidewaysScroll(page)).toBe(0);
  await done();
});

it("opens again without a network, for an organiser who never was on a judge's page", async () => {
  const { features } = await zonesOf();
  const { page, context, done } = await openAs("organiser", "phone", await contestPath("/map"));
  await page.getByText("Without a network this map and the walk open from this phone.").waitFor();
  await context.setOffline(true);
  await page.reload();
  await page.locator('[data-ready="yes"]').waitFor();
  await expect.poll(() => page.locator(".leaflet-zones-pane path").count()).toBe(features.length);
  await page.getByText(/No word from the server: drawn from this contest’s data as of/).waitFor();
  expect(await sidewaysScroll(page)).toBe(0);
  await page.goto(await contestPath("/walk"));
  await page.getByRole("heading", { name: "Walk the zone" }).waitFor();
  await page.getByText(/No network\. The zones are those of|No zones yet/).waitFor();
  await done();
});

it("fills no line, however bent", async () => {
  const { features } = await overviewOf();
  const lines = features.filter(({ geometry, retired }) => geometry.type === "LineString" && !retired);
  if (lines.length === 0) throw new Error("The demo has no line.");
  const { page, done } = await openMap("desk");
  const filled = await page.locator(".leaflet-ground-pane path").evaluateAll((paths) =>
    paths
      // A line's path is not closed.
      .filter((path) => !/z/i.test(path.getAttribute("d") ?? "") && !/a/i.test(path.getAttribute("d") ?? ""))
      .map((path) => getComputedStyle(path).fill),
  );
  expect(filled.length).toBeGreaterThanOrEqual(lines.length);
  expect(new Set(filled)).toEqual(new Set(["none"]));
  await done();
});

it("is no trap for the keyboard: arrows move it, Tab leaves it", async () => {
  const { page, done } = await openMap("desk");
  await tabTo(page, '[data-ready="yes"]');
  const pane = page.locator(".leaflet-map-pane");
  const before = await pane.getAttribute("style");
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => pane.getAttribute("style")).not.toBe(before);
  const inside = () =>
    page.evaluate(() => !!document.querySelector('[data-ready="yes"]')?.contains(document.activeElement));
  let presses = 0;
  do await page.keyboard.press("Tab");
  while ((await inside()) && ++presses < 10);
  expect(presses).toBeLessThan(4);
  await done();
});
