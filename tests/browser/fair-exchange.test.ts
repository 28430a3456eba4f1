/** The site in and out of files: previewed on the map and in a table, confirmed, taken out again, pegs on paper. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { contestPath, newTestKey, openAs, overviewOf, realFaults, tabTo } from "./fair-visitors";
import { closeBrowser, programUrl, SCREEN_NAMES, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

const file = (name: string, content: string) => ({
  name,
  mimeType: "application/octet-stream",
  buffer: Buffer.from(content),
});

/** Other tests share the contest: what came in is taken off the map again. */
async function retire(page: Page, path: string) {
  const answer = await page.request.patch(`/api/v1${await contestPath(path)}`, {
    data: { retired: true },
    headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
  });
  expect(answer.status()).toBe(200);
}

/** Places some metres from the demo's middle. */
async function siteFile(tag: string) {
  const { latitude, longitude } = await overviewOf();
  const at = (east: number, north: number) => [longitude + east / 80_000, latitude + north / 111_000];
  const feature = (geometry: object, properties: object) => ({ type: "Feature", geometry, properties });
  const ring = [at(-60, 60), at(-40, 60), at(-40, 80), at(-60, 80), at(-60, 60)];
  return JSON.stringify({
    type: "FeatureCollection",
    features: [
      feature({ type: "Point", coordinates: at(0, 90) }, { name: `Gate ${tag}`, kind: "post" }),
      feature({ type: "Polygon", coordinates: [ring] }, { name: `Marquee ${tag}`, kind: "marquee" }),
      feature(
        { type: "Polygon", coordinates: [[ring[0], ring[2], ring[1], ring[3], ring[0]]] },
        { name: `Bow ${tag}` },
      ),
    ],
  });
}

describe.each(SCREEN_NAMES)("files of the site, %s", (screen) => {
  it("shows what would come in, changes nothing before the yes, and then brings in what was chosen", async () => {
    const before = await overviewOf();
    const { page, faults, done } = await openAs("organiser", screen, await contestPath("/organise/exchange"));
    await page.getByLabel("File of the site").setInputFiles(file("site.geojson", await siteFile(screen)));

    const table = page.getByRole("table", { name: /Places in the file/ });
    await table.waitFor();
    const rows = table.locator("tbody tr");
    expect(await rows.count()).toBe(3);
    // What cannot come in stands first, then what needs a person.
    expect(await rows.nth(0).textContent()).toMatch(/crosses or touches itself at corner 1/);
    expect(await page.getByLabel(`Bring in Bow ${screen}`).isDisabled()).toBe(true);
    expect(await rows.nth(1).textContent()).toContain("Choose what it is.");
    await page.locator('[data-ready="yes"]').waitFor();
    await expect.poll(() => page.locator(".leaflet-labels-pane").textContent()).toContain(`+ Gate ${screen}`);
    expect((await overviewOf()).features).toEqual(before.features);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    await page.getByLabel(`What Marquee ${screen} is`).selectOption({ label: "Building" });
    await page.getByLabel("Name of feature 2").fill(`Tea tent ${screen}`);
    await page.getByRole("button", { name: "Bring in 2 of 3" }).click();
    await page.getByText("From site.geojson came 2 site features.").waitFor();
    const after = await overviewOf();
    expect(after.features.length).toBe(before.features.length + 2);
    expect(
      after.features
        .filter(({ name, retired }) => name.endsWith(` ${screen}`) && !retired)
        .map(({ name, kind }) => [name, kind]),
    ).toEqual([
      [`Gate ${screen}`, "post"],
      [`Tea tent ${screen}`, "building"],
    ]);
    for (const { id, name } of after.features)
      if (name.endsWith(` ${screen}`)) await retire(page, `/features/${id}`);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });

  it("lists the pegs, to print and as CSV", async () => {
    const { page, done } = await openAs(
      "organiser",
      screen,
      await contestPath("/organise/exchange/pegs?every=200"),
    );
    const pegs = page.getByRole("table", { name: "Pegs" });
    expect(await pegs.getByRole("rowheader").filter({ hasText: "Firing point" }).count()).toBeGreaterThan(0);
    const corners = pegs.getByRole("rowheader").filter({ hasText: "corner" });
    const few = await corners.count();
    expect(few).toBeGreaterThan(10);
    await page.getByLabel("Corners of zones at most apart").selectOption("50");
    await page.getByRole("button", { name: "Make the list" }).click();
    await expect.poll(() => corners.count()).toBeGreaterThan(few);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "CSV" }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/-pegs\.csv$/);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await done();
  });
});

it("says why a file is refused, and offers to exchange swapped coordinates", async () => {
  const { page, done } = await openAs("organiser", "phone", await contestPath("/organise/exchange"));
  const chooser = page.getByLabel("File of the site");
  await chooser.setInputFiles(file("bad.kml", '<!DOCTYPE kml [<!ENTITY a "b">]><kml>&a;</kml>'));
  const problem = page.getByRole("alert").filter({ hasText: "bad.kml was not read" });
  expect(await problem.textContent()).toContain("DOCTYPE");

  const { latitude, longitude } = await overviewOf();
  await chooser.setInputFiles(
    file("swapped.csv", `name;latitude;longitude;kind\nGate;${longitude};${latitude};post\n`),
  );
  await page.getByRole("button", { name: "Exchange latitude and longitude" }).click();
  await page.getByRole("button", { name: "Bring in 1 of 1" }).waitFor();
  await page.getByRole("button", { name: "Leave the site as it is" }).click();
  expect(await page.getByRole("table").count()).toBe(0);
  await done();
});

it("asks what heights from the sea level mean before it keeps them, by keyboard alone", async () => {
  const { page, done } = await openAs("organiser", "desk", await contestPath("/organise/exchange"));
  const { latitude, longitude } = await overviewOf();
  const gpx = `<gpx version="1.1"><wpt lat="${latitude}" lon="${longitude}"><ele>10</ele><name>H</name><type>spot height</type></wpt></gpx>`;
  await page.getByLabel("File of the site").setInputFiles(file("walk.gpx", gpx));
  await page.getByText("say above how far that lies above the ellipsoid").waitFor();
  await tabTo(page, "#import-heights");
  await page.keyboard.press("Space");
  await page.keyboard.press("Tab");
  await page.keyboard.type("45.5");
  await page.getByRole("button", { name: "Bring in 1 of 1" }).waitFor();
  await tabTo(page, 'button:text("Bring in 1 of 1")');
  await page.keyboard.press("Enter");
  await page.getByText("came 1 spot height").waitFor();
  const brought = (await overviewOf()).spotHeights.find(({ height, retired }) => height === 55.5 && !retired);
  await retire(page, `/spot-heights/${brought?.id}`);
  await done();
});

it("takes the site out as it is", async () => {
  const { page, done } = await openAs("safety-officer", "desk", await contestPath("/organise/exchange"));
  expect(await page.getByLabel("File of the site").count()).toBe(0);
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "GeoJSON" }).click(),
  ]);
  const stream = await download.createReadStream();
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  const { features } = JSON.parse(Buffer.concat(chunks).toString()) as {
    features: { properties: { name?: string } }[];
  };
  const names = features.map(({ properties }) => properties.name);
  for (const { name, retired } of (await overviewOf()).features) if (!retired) expect(names).toContain(name);
  await done();
});
