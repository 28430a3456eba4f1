/**
 * Laying out the site: by taps on the map and by numbers beside it, with snapping and undo; a reload keeps the draft;
 * what is saved is on the map. A picture is pinned and lies under it.
 */
import { deflateSync } from "node:zlib";
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { direct, groundDirect } from "@/lib/earth";
import { contestPath, newTestKey, openAs, overviewOf, realFaults } from "./fair-visitors";
import { closeBrowser, programUrl, SCREEN_NAMES, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

const corners = (page: Page) => page.getByLabel(/^Latitude, longitude of (corner|point)/);
const cornerTexts = async (page: Page) =>
  Promise.all((await corners(page).all()).map((field) => field.inputValue()));

/** Taps the map at parts of its width and height. */
async function tapMap(page: Page, right: number, down: number): Promise<void> {
  const box = await page.locator('[data-ready="yes"]').first().boundingBox();
  if (!box) throw new Error("There is no map.");
  await page.mouse.click(box.x + box.width * right, box.y + box.height * down);
}

async function openSite(screen: (typeof SCREEN_NAMES)[number]) {
  const opened = await openAs("organiser", screen, await contestPath("/organise/site"));
  opened.page.on("dialog", (dialog) => dialog.accept());
  await opened.page.locator('[data-ready="yes"]').waitFor();
  return opened;
}

/** Takes what a test has laid out off the demo's map again: other tests count on it. */
async function retire(page: Page, path: string): Promise<void> {
  const answer = await page.request.patch(`/api/v1${await contestPath(path)}`, {
    data: { retired: true },
    headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
  });
  expect(answer.ok(), await answer.text()).toBe(true);
}

async function beginDrawing(page: Page, item: string): Promise<void> {
  await page.locator("#draw-what").selectOption(item);
  await page.getByRole("button", { name: "Draw it" }).click();
  await page.locator('[data-ready="yes"]').scrollIntoViewIfNeeded();
}

describe.each(SCREEN_NAMES)("an area, %s", (screen) => {
  const name = `Bee field ${screen}`;

  it("is drawn by taps, mended by undo, kept through a reload, saved, and seen on the map", async () => {
    const { page, faults, done } = await openSite(screen);
    await beginDrawing(page, "building");
    for (const [right, down] of [
      [0.3, 0.2],
      [0.45, 0.2],
      [0.45, 0.35],
      [0.3, 0.35],
    ] as const)
      await tapMap(page, right, down);
    const drawn = await cornerTexts(page);
    expect(drawn).toHaveLength(4);

    // One too many, and back; the table and the map follow together.
    await tapMap(page, 0.6, 0.6);
    expect(await corners(page).count()).toBe(5);
    await page.getByRole("button", { name: "Undo" }).click();
    expect(await cornerTexts(page)).toEqual(drawn);
    await page.getByRole("button", { name: "Redo" }).click();
    expect(await corners(page).count()).toBe(5);
    await page.getByRole("button", { name: "Delete corner 5", exact: true }).last().click();
    expect(await cornerTexts(page)).toEqual(drawn);

    // A handle is a finger wide, and the small one on an edge makes a corner.
    await page.getByRole("button", { name: "Finish drawing" }).click();
    const handles = page.locator(".leaflet-edit-handles-pane > div");
    const size = await handles.first().boundingBox();
    expect([size?.width, size?.height]).toEqual([44, 44]);
    await page.locator('[data-ready="yes"]').scrollIntoViewIfNeeded();
    const dots = page.locator(".leaflet-edit-handles-pane > div", { hasText: "2" });
    const from = await dots.first().boundingBox();
    if (!from) throw new Error("Corner 2 has no handle.");
    await page.mouse.move(from.x + 22, from.y + 22);
    await page.mouse.down();
    await page.mouse.move(from.x + 42, from.y + 12, { steps: 4 });
    await page.mouse.up();
    const dragged = await cornerTexts(page);
    expect(dragged.filter((text, index) => text !== drawn[index])).toHaveLength(1);
    expect(dragged[1]).not.toBe(drawn[1]);

    await page.locator("#feature-name").fill(name);
    await page.locator("#feature-rule").selectOption("crossable");
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await page.reload();
    await page.getByText("is kept on this device").waitFor();
    expect(await cornerTexts(page)).toEqual(dragged);
    expect(await page.locator("#feature-name").inputValue()).toBe(name);
    expect((await overviewOf()).features.some((feature) => feature.name === name)).toBe(false);

    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText(`Building ${name} is saved and on the map.`).waitFor();
    const saved = (await overviewOf()).features.find((feature) => feature.name === name);
    expect(saved).toMatchObject({ kind: "building", rule: "crossable", standOff: null });
    expect(saved?.geometry.type === "Polygon" && saved.geometry.coordinates[0]?.length).toBe(5);
    await page.goto(await contestPath("/map"));
    await page.getByRole("table", { name: "Site features" }).getByRole("rowheader", { name }).waitFor();
    expect(realFaults(faults)).toEqual([]);
    await retire(page, `/features/${saved?.id}`);
    await done();
  });
});

describe("by numbers", () => {
  it("the same area is laid out by keyboard alone: coordinates, degrees and minutes, bearing and distance", async () => {
    const { page, done } = await openSite("desk");
    const { latitude, longitude, height } = await overviewOf();
    await beginDrawing(page, "car-park");
    const first = direct({ latitude, longitude }, 40, 150);
    const add = async () => {
      await page.getByRole("button", { name: "Add the corner" }).focus();
      await page.keyboard.press("Enter");
    };
    await page.locator("#add-position").fill(`${first.latitude.toFixed(7)}, ${first.longitude.toFixed(7)}`);
    await add();
    await page.locator("#add-from").selectOption("previous");
    for (const bearing of ["90", "180"]) {
      await page.locator("#add-bearing").fill(bearing);
      await page.locator("#add-distance").fill("30 m");
      await add();
    }
    const texts = await cornerTexts(page);
    const start = {
      latitude: Number(first.latitude.toFixed(7)),
      longitude: Number(first.longitude.toFixed(7)),
    };
    const second = groundDirect(start, 90, 30, height);
    const third = groundDirect(second, 180, 30, height);
    const text = (at: typeof second) => `${at.latitude.toFixed(7)}, ${at.longitude.toFixed(7)}`;
    expect(texts).toEqual([text(start), text(second), text(third)]);

    // A corner is typed over, in degrees and minutes; what cannot be read is told at it and changes nothing.
    const field = corners(page).nth(2);
    await field.fill("north of the oak");
    await field.press("Enter");
    await page.locator("#corner-2-error").waitFor();
    const minutes = (value: number, letters: string) => {
      const size = Math.abs(value);
      return `${Math.floor(size)}° ${((size % 1) * 60).toFixed(6)}' ${letters[value < 0 ? 1 : 0]}`;
    };
    const moved = direct(third, 200, 5);
    await field.fill(`${minutes(moved.latitude, "NS")}, ${minutes(moved.longitude, "EW")}`);
    await field.press("Enter");
    await expect.poll(() => field.inputValue()).toBe(text(moved));

    // Order, deletion and undo are the map's.
    await page.getByRole("button", { name: "Move corner 3 up" }).click();
    expect(await cornerTexts(page)).toEqual([text(start), text(moved), text(second)]);
    await page.keyboard.press("Control+z");
    expect(await cornerTexts(page)).toEqual([text(start), text(second), text(moved)]);

    await page.locator("#feature-name").fill("Trailer park");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("Car park Trailer park is saved and on the map.").waitFor();
    const saved = (await overviewOf()).features.find(({ name }) => name === "Trailer park");
    await retire(page, `/features/${saved?.id}`);
    await done();
  });

  it("pasted points take the place of the corners; an outline that crosses itself is told before it is saved", async () => {
    const { page, done } = await openSite("phone");
    const { latitude, longitude } = await overviewOf();
    await beginDrawing(page, "spectators");
    const at = (bearing: number) => direct({ latitude, longitude }, bearing, 200);
    const lines = [10, 20, 15, 12].map((bearing) => `${at(bearing).latitude}, ${at(bearing).longitude}`);
    await page.getByText("Paste points").click();
    await page.locator("#feature-points").fill([...lines, "by the oak"].join("\n"));
    expect(await page.locator("#feature-points-error").textContent()).toMatch(/line 5.*by the oak/);
    const bowTie = [0, 100, 100, 0].map((east, index) => {
      const north = index % 2 === 0 ? 300 : 340;
      const { latitude: a, longitude: b } = direct(direct({ latitude, longitude }, 0, north), 90, east);
      return `${a}, ${b}`;
    });
    await page.locator("#feature-points").fill(bowTie.join("\n"));
    await page.getByRole("button", { name: "Use these points" }).click();
    await page.getByText(/The outline crosses or touches itself at corner/).waitFor();
    await page.getByRole("button", { name: "Drop it" }).click();
    await page.locator("#draw-what").waitFor();
    await done();
  });
});

it("catches what is there: a tap near a peg takes its place exactly, and says so", async () => {
  const { page, done } = await openSite("desk");
  const { latitude, longitude } = await overviewOf();
  await beginDrawing(page, "control-point");
  const peg = direct({ latitude, longitude }, 300, 40);
  await page.locator("#add-position").fill(`${peg.latitude.toFixed(7)}, ${peg.longitude.toFixed(7)}`);
  await page.getByRole("button", { name: "Place it there" }).click();
  await page.locator("#point-name").fill("Snap peg");
  await page.locator("#point-accuracy").fill("0.05 m");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Control point Snap peg is saved and on the map.").waitFor();
  const saved = (await overviewOf()).controlPoints.find(({ name }) => name === "Snap peg");
  expect(saved).toMatchObject({ accuracy: 0.05, retired: false });

  await beginDrawing(page, "path");
  const label = page.locator(".leaflet-points-pane svg").last();
  await label.waitFor();
  const sign = await label.boundingBox();
  if (!sign) throw new Error("The peg is not drawn.");
  await page.mouse.click(sign.x + sign.width / 2 + 7, sign.y + sign.height / 2 + 6);
  await page.getByText("Snapped to control point Snap peg.").waitFor();
  expect(await cornerTexts(page)).toEqual([`${saved?.latitude.toFixed(7)}, ${saved?.longitude.toFixed(7)}`]);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByLabel("Snap to what is there").uncheck();
  await page.mouse.click(sign.x + sign.width / 2 + 7, sign.y + sign.height / 2 + 6);
  expect(await cornerTexts(page)).not.toEqual([
    `${saved?.latitude.toFixed(7)}, ${saved?.longitude.toFixed(7)}`,
  ]);
  await retire(page, `/control-points/${saved?.id}`);
  await done();
});

it("changes the boundary where it is: the map does not jump, and a corner goes by the keyboard", async () => {
  const { page, done } = await openSite("desk");
  const boundary = (await overviewOf()).features.find(({ kind }) => kind === "boundary");
  if (boundary?.geometry.type !== "Polygon") throw new Error("The demo has no boundary.");
  await page.getByRole("button", { name: `Change ${boundary.name}` }).click();
  const count = (boundary.geometry.coordinates[0]?.length ?? 1) - 1;
  expect(await corners(page).count()).toBe(count);
  await page.getByRole("button", { name: "Whole site" }).click();
  const handles = page.locator(".leaflet-edit-handles-pane > div");
  await expect.poll(() => handles.filter({ hasText: /^\d+$/ }).count()).toBe(count);
  await page
    .getByRole("button", { name: `Delete corner ${count}`, exact: true })
    .last()
    .press("Enter");
  expect(await corners(page).count()).toBe(count - 1);
  await page.getByRole("button", { name: "Undo" }).press("Enter");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText(`Boundary ${boundary.name} is saved and on the map.`).waitFor();
  const saved = (await overviewOf()).features.find(({ id }) => id === boundary.id);
  expect(saved?.geometry).toEqual(boundary.geometry);
  await done();
});

it("asks before unsaved work is left, and goes nowhere on a no", async () => {
  const { page, done } = await openAs("organiser", "desk", await contestPath("/organise/site"));
  await page.locator('[data-ready="yes"]').waitFor();
  const asked: string[] = [];
  page.on("dialog", (dialog) => {
    asked.push(dialog.message());
    return asked.length > 1 ? dialog.accept() : dialog.dismiss();
  });
  await beginDrawing(page, "water");
  await tapMap(page, 0.2, 0.5);
  await page.getByRole("link", { name: "Map with the zones" }).click();
  await expect.poll(() => asked.length).toBe(1);
  expect(asked[0]).toContain("not saved");
  expect(page.url()).toContain("/organise/site");
  await page.getByRole("link", { name: "Map with the zones" }).click();
  await page.waitForURL("**/map");
  await done();
});

/** A small grey PNG, as a drone would not take it. */
function png(width: number, height: number): Buffer {
  const crc = (bytes: Buffer) => {
    let value = 0xffffffff;
    for (const byte of bytes) {
      value ^= byte;
      for (let bit = 0; bit < 8; bit++) value = (value >>> 1) ^ (value & 1 ? 0xedb88320 : 0);
    }
    return (value ^ 0xffffffff) >>> 0;
  };
  const chunk = (kind: string, content: Buffer) => {
    const named = Buffer.concat([Buffer.from(kind, "latin1"), content]);
    const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(content.length);
    sum.writeUInt32BE(crc(named));
    return Buffer.concat([length, named, sum]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  const rows = Buffer.alloc((width + 1) * height, 0x99);
  for (let row = 0; row < height; row++) rows[row * (width + 1)] = 0;
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows)),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

describe.each(SCREEN_NAMES)("an aerial picture, %s", (screen) => {
  it("is pinned by taps and coordinates, shows its fit, and lies under the map where the pins say", async () => {
    const { page, faults, done } = await openAs(
      "organiser",
      screen,
      await contestPath("/organise/site/picture"),
    );
    const middle = await overviewOf();
    const refused = { name: "plan.svg", mimeType: "image/svg+xml", buffer: Buffer.from("<svg/>") };
    await page.locator("#picture-file").setInputFiles(refused);
    await page.locator("#picture-file-error").waitFor();

    const name = `Kite ${screen}`;
    await page
      .locator("#picture-file")
      .setInputFiles({ name: `${name}.png`, mimeType: "image/png", buffer: png(400, 300) });
    const picture = page.locator('[aria-label^="The picture."][data-ready="yes"]');
    await picture.waitFor();
    await picture.scrollIntoViewIfNeeded();
    const box = await picture.boundingBox();
    if (!box) throw new Error("The picture is not shown.");
    await page.mouse.click(box.x + box.width * 0.3, box.y + box.height * 0.3);
    await page.getByRole("button", { name: "Pin the middle of what is shown" }).click();
    await page
      .locator("#pin-0-what")
      .selectOption({ label: `Firing point ${middle.firingPoints[0]?.number}` });
    // Pixels are exact when they are typed: half a metre each, turned by 30°.
    const from = middle.firingPoints[0];
    if (!from) throw new Error("The demo has no firing point.");
    const pixels = [
      [100, 80],
      [300, 80],
    ] as const;
    for (const [index, [x, y]] of pixels.entries()) {
      await page.locator(`#pin-${index}-x`).fill(String(x));
      await page.locator(`#pin-${index}-y`).fill(String(y));
      await page.locator(`#pin-${index}-y`).blur();
    }
    const second = direct(from, 120, 100);
    await page.locator("#pin-1-what").selectOption("typed");
    await page
      .locator("#pin-1-coordinates")
      .fill(`${second.latitude.toFixed(8)}, ${second.longitude.toFixed(8)}`);
    await page.getByText(/Nothing checks this fit/).waitFor();
    expect(await page.getByText(/a pixel is/).textContent()).toMatch(/0\.50? m on the ground/);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await page.getByRole("button", { name: "Save the picture" }).click();
    await page.getByText(`${name} is saved and lies under the map.`).waitFor();

    const saved = (await overviewOf()).aerialPictures.find((each) => each.name === name);
    expect(saved).toMatchObject({ mediaType: "image/jpeg", width: 400, height: 300, retired: false });
    expect(saved?.pins[0]).toMatchObject({
      x: 100,
      y: 80,
      latitude: from.latitude,
      longitude: from.longitude,
    });

    // On the map: turned by 30°, drawn below everything, and still there without a network.
    await page.goto(await contestPath("/map"));
    const drawn = page.locator(`.leaflet-picture-pane img[src$="${saved?.id}"]`);
    await drawn.waitFor({ state: "attached" });
    const loaded = () => drawn.evaluate((image: HTMLImageElement) => image.naturalWidth);
    await expect.poll(loaded, { timeout: 10_000 }).toBe(400);
    const turn = await drawn.evaluate((image) => {
      const { a, b } = new DOMMatrix(getComputedStyle(image).transform);
      return (Math.atan2(b, a) * 180) / Math.PI;
    });
    expect(Math.abs(turn - 30)).toBeLessThan(0.2);
    await page.getByLabel(`Picture: ${name}`).uncheck();
    await expect.poll(() => drawn.count()).toBe(0);
    await page.context().setOffline(true);
    await page.getByLabel(`Picture: ${name}`).check();
    await expect.poll(loaded, { timeout: 10_000 }).toBe(400);
    await page.context().setOffline(false);
    expect(realFaults(faults)).toEqual([]);

    await page.goto(await contestPath("/organise/site/picture"));
    await page
      .getByRole("form", { name: `Retire ${name}` })
      .getByRole("button")
      .click();
    await page.getByRole("form", { name: `Bring back ${name}` }).waitFor();
    await done();
  });
});
