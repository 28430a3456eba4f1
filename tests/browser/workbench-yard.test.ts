/** A team's practice yard: laid out by numbers, its zone and conflicts, kept without a network, out and in as a file. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { closeBrowser, openPage, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const PLACE = "44.2, -31.6";

async function addCorner(page: Page, text: string): Promise<void> {
  await page.locator("#add-position").fill(text);
  await page.getByRole("button", { name: /^(Add the|Place it)/ }).click();
}

async function begin(page: Page, what: string): Promise<void> {
  await page.locator("#draw-what").selectOption(what);
  await page.getByRole("button", { name: "Draw it" }).click();
}

const save = (page: Page) => page.getByRole("button", { name: "Save", exact: true }).click();

/** The first conflict of the zone on the page. */
const hedge = (page: Page) => page.getByRole("row", { name: /Hollow Hedge/ });

it("a yard is laid out by numbers on a phone, shows its zone and its conflict, and all of it without a network", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/workbench/yard");
  await page.locator("#yard-position").fill(PLACE);
  await page.getByRole("button", { name: "Begin the yard here" }).click();
  await page.getByText("the machine must not fire").waitFor();

  await begin(page, "firing-point");
  await addCorner(page, PLACE);
  await page.locator("#point-bearing").fill("90");
  await page.locator("#point-accuracy").fill("0.5 m");
  await save(page);
  await page.getByText("Firing point 1 is saved").waitFor();

  // 20 m north of the firing point, in the side of any zone; its corners by bearing and distance.
  await begin(page, "overhead-line");
  await page.locator("#feature-name").fill("Hollow Hedge line");
  const byBearing = async (bearing: string, distance: string) => {
    await page.locator("#add-from").selectOption({ label: "Firing point 1, by bearing and distance" });
    await page.locator("#add-bearing").fill(bearing);
    await page.locator("#add-distance").fill(distance);
    await page.getByRole("button", { name: "Add the point" }).click();
  };
  await byBearing("315", "28 m");
  await byBearing("45", "28 m");
  await save(page);

  await page.getByRole("heading", { name: "What the zones touch" }).waitFor({ timeout: 30_000 });
  await page
    .getByText(/the zone covers .* of its length/)
    .first()
    .waitFor();
  expect(await hedge(page).first().textContent()).toContain("yes");
  await page.getByRole("rowheader", { name: "Hollow Hedge line" }).first().waitFor();
  await page.getByText("only the safety officer of a contest sets them").waitFor();
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await seriousFaults(page)).toEqual([]);
  // A zone that is not of what is written does not stay on the map, nor the ring of its bearings.
  const drawn = () => page.locator(".leaflet-zones-pane path, .leaflet-ring-pane svg").count();
  expect(await drawn()).toBe(2);
  await page.locator("#yard-bearing").fill("400");
  await page.getByText("its zone is off the map").waitFor();
  expect(await drawn()).toBe(0);
  await page.locator("#yard-bearing").fill("90");
  await expect.poll(drawn).toBe(2);

  await page
    .getByText("Without a network the workbench opens from this device.")
    .waitFor({ timeout: 30_000 });
  await context.setOffline(true);
  await page.reload();
  await page
    .getByText(/the zone covers .* of its length/)
    .first()
    .waitFor({ timeout: 10_000 });
  expect(faults.filter((fault) => !fault.startsWith("Failed to load resource"))).toEqual([]);

  // A heavier load throws otherwise: the zone of before may not stand there as if it were today's.
  await page.getByRole("link", { name: "Machine", exact: true }).click();
  await page.getByLabel("Sling length", { exact: false }).first().fill("3.1 m");
  await page.getByRole("link", { name: "Practice yard" }).click();
  await page.getByText("the zone from before is out of date").waitFor();
  expect(await page.getByRole("heading", { name: "What the zones touch" }).count()).toBe(0);
  await page.getByRole("heading", { name: "What the zones touch" }).waitFor({ timeout: 30_000 });
  const forward = await page
    .locator("dt", { hasText: /^Forward$/ })
    .locator("xpath=following-sibling::dd")
    .textContent();
  expect(await page.locator(".leaflet-labels-pane").textContent()).toContain(
    `forward ${forward?.replace(/ \(.*/, "")}`,
  );
  // Where throws are written down, it stands behind which distances.
  await page.getByRole("link", { name: "Practice throws" }).click();
  const told = page.getByText(/the zone of these numbers reaches [\d ]+ m \([\d ]+ ft\) forward/);
  await told.waitFor();
  // The same number as in the yard, and what it contains.
  expect(await told.textContent()).toContain(`reaches ${forward} forward`);
  expect(await told.textContent()).toContain("0.50 m (1.64 ft) of that is how far the machine may stand");

  await page.getByRole("link", { name: "Machine", exact: true }).click();
  await page.getByLabel("Sling length", { exact: false }).first().fill("3.2 m");
  await page.getByRole("link", { name: "Practice throws" }).click();
  await page.getByText("The practice yard holds no zone of the numbers on the bench.").waitFor();
  await page.getByRole("link", { name: "Machine", exact: true }).click();
  await page.getByLabel("Sling length", { exact: false }).first().fill("");
  await page.getByRole("link", { name: "Practice yard" }).click();
  await page.getByText("no zone: the machine must not fire").waitFor();
  expect(await page.getByRole("heading", { name: "What the zones touch" }).count()).toBe(0);
  await context.close();
});

it("a yard goes out as GeoJSON and comes in again at a desk; what cannot be read changes nothing", async () => {
  const context = await visitor("desk", { acceptDownloads: true });
  const { page } = await openPage(context, "/workbench/yard");
  const give = (name: string, content: string) =>
    page
      .locator('input[type="file"]')
      .setInputFiles({ name, mimeType: "application/geo+json", buffer: Buffer.from(content) });
  await give("broken.geojson", '{"type": "FeatureCollection", "features": [');
  await page.getByText("broken.geojson was not read").waitFor();
  await give("field.geojson", FIELD);
  await page.getByText("field.geojson: 3 places").waitFor();
  await page.getByRole("button", { name: "Bring in 3 of 3" }).click();
  await page.getByText("From field.geojson came 2 site features, 1 firing point.").waitFor();
  await page.getByRole("heading", { name: "Which way it may throw" }).waitFor({ timeout: 30_000 });
  expect(await page.locator("#yard-bearing").inputValue()).toBe("200");
  await page.locator("#yard-bearing").fill("31");
  await page.getByText("the firing point still has 200°").waitFor();
  await page.locator("#yard-bearing").fill("200");
  await page.getByText("North Paddock").first().waitFor();

  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the yard as GeoJSON" }).click();
  const saved = JSON.parse(readFileSync(await (await download).path(), "utf8"));
  const given = JSON.parse(FIELD).features;
  expect(saved.features.slice(0, 3)).toMatchObject(given);
  expect(saved.features[3].properties.what).toBe("zone");

  await page.getByRole("button", { name: "Take away Stile Lane" }).click();
  expect(await page.getByRole("button", { name: "Take away Stile Lane" }).count()).toBe(0);
  await page.getByRole("button", { name: "Undo the last change" }).click();
  await page.getByRole("button", { name: "Take away Stile Lane" }).waitFor();
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await seriousFaults(page)).toEqual([]);

  const cut = await page.evaluate(() => {
    const kept = (localStorage.getItem("fairthrow-yard") ?? "").slice(0, 200);
    localStorage.setItem("fairthrow-yard", kept);
    return kept;
  });
  await page.reload();
  await page.getByText("The yard kept in this browser cannot be read").waitFor();
  expect(await page.evaluate(() => localStorage.getItem("fairthrow-yard"))).toBe(cut);
  await context.close();
});

const square = (south: number, west: number, side: number) => {
  const [north, east] = [south + side, west + side];
  return [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
};

const FIELD = JSON.stringify({
  type: "FeatureCollection",
  features: [
    {
      type: "Feature",
      geometry: { type: "Polygon", coordinates: [square(44.195, -31.605, 0.01)] },
      properties: { what: "feature", kind: "boundary", name: "North Paddock" },
    },
    {
      type: "Feature",
      geometry: {
        type: "LineString",
        coordinates: [
          [-31.602, 44.1985],
          [-31.598, 44.1985],
        ],
      },
      properties: { what: "feature", kind: "road", name: "Stile Lane", standOff: 20 },
    },
    {
      type: "Feature",
      geometry: { type: "Point", coordinates: [-31.6, 44.2] },
      properties: { what: "firing-point", name: "Slab", number: 4, accuracy: 1, bearing: 200 },
    },
  ],
});
