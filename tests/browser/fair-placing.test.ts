/** The placing page: a machine turned and dragged on the map, its cures, and what is tried kept apart from what is saved. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { contestPath, openAs, realFaults, zonesOf } from "./fair-visitors";
import { closeBrowser, SCREEN_NAMES, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

/** A machine of the demo whose zone touches something. */
async function touching() {
  const { features } = await zonesOf();
  const found = features.find(({ properties }) => properties.conflicts.some(({ inConflict }) => inConflict));
  const conflict = found?.properties.conflicts.find(({ inConflict }) => inConflict);
  if (!found || !conflict) throw new Error("No zone of the demo touches anything protected.");
  return { id: found.id, name: found.properties.machineName, bearing: found.properties.bearing, conflict };
}

async function openPlacing(screen: (typeof SCREEN_NAMES)[number], machine: string) {
  const opened = await openAs("organiser", screen, `${await contestPath("/placing")}?machine=${machine}`);
  await opened.page.locator('[data-ready="yes"][data-drawn]').waitFor();
  return opened;
}

const zone = (page: Page) => page.locator("path[data-placed]");

describe.each(SCREEN_NAMES)("a machine on the placing page, %s", (screen) => {
  it("turns by key, says that it is not saved, and lists what its zone touches there", async () => {
    const machine = await touching();
    const before = await zonesOf();
    const { page, faults, done } = await openPlacing(screen, machine.id);
    const touches = page.getByRole("region", { name: /What its zone/ });
    await expect.poll(() => touches.textContent()).toContain(machine.conflict.name);
    await page.getByRole("table", { name: "Bearings at this firing point" }).waitFor();
    expect(await seriousFaults(page)).toEqual([]);

    const outline = await zone(page).getAttribute("d");
    await page.getByLabel("Bearing, by slider").focus();
    for (let presses = 0; presses < 8; presses++) await page.keyboard.press("ArrowRight");
    await expect
      .poll(() => page.getByLabel("Bearing", { exact: true }).inputValue())
      .toBe(`${machine.bearing + 2}`);
    expect(await zone(page).getAttribute("d")).not.toBe(outline);
    await page.getByText(`${machine.name}: not saved`).waitFor();
    expect(await zone(page).getAttribute("stroke-dasharray")).toMatch(/\d/);
    await page.getByRole("button", { name: "Back 1 m" }).click();
    expect(await page.getByLabel("Firing point", { exact: true }).inputValue()).toBe("");
    expect(await page.getByText("There is no firing point here").count()).toBe(1);

    await page.getByRole("button", { name: "Back to what is saved" }).click();
    await page.getByText("As saved.").waitFor();
    await expect.poll(() => zone(page).getAttribute("d")).toBe(outline);
    const after = await zonesOf();
    expect(after.features.map(({ geometry }) => geometry)).toEqual(
      before.features.map(({ geometry }) => geometry),
    );
    expect(await sidewaysScroll(page)).toBe(0);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });
});

it("draws the zone anew with every frame while it is dragged", async () => {
  const machine = await touching();
  const { page, done } = await openPlacing("desk", machine.id);
  const map = page.locator("[data-drawn]");
  const drawn = async () => Number(await map.getAttribute("data-drawn"));
  const handle = await page.locator(".leaflet-marker-draggable").boundingBox();
  if (!handle) throw new Error("The machine has no handle.");
  const [x, y] = [handle.x + handle.width / 2, handle.y + handle.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 12, y);
  const outline = await zone(page).getAttribute("d");
  // The pointer moves before every frame, as a hand does.
  await page.evaluate(
    async ([fromX, fromY]) => {
      for (let frame = 0; frame < 45; frame++) {
        const move = { clientX: fromX + frame, clientY: fromY + (frame % 9), bubbles: true, buttons: 1 };
        document.dispatchEvent(new MouseEvent("mousemove", move));
        await new Promise(requestAnimationFrame);
      }
    },
    [x + 12, y] as const,
  );
  expect(await drawn()).toBeGreaterThan(40);
  expect(await zone(page).getAttribute("d")).not.toBe(outline);
  await page.mouse.up();
  await page.getByText("Not saved.", { exact: true }).waitFor();
  await done();
});

it("finds cures, cheapest first, and tries one on the map without saving it", async () => {
  const machine = await touching();
  const { page, faults, done } = await openPlacing("desk", machine.id);
  await page.getByRole("button", { name: "Find cures" }).click();
  const cures = page.getByRole("region", { name: "Cures" });
  const list = cures.locator("ol > li");
  await list.first().waitFor({ timeout: 90_000 });
  const costs = (await list.allTextContents()).map((text) => Number(/Costs ([\d.]+) points/.exec(text)?.[1]));
  expect(costs.length).toBeGreaterThan(1);
  expect(costs).toEqual([...costs].sort((a, b) => a - b));
  await cures.getByRole("button", { name: "Try it on the map" }).first().click();
  const touches = page.getByRole("region", { name: /What its zone there/ });
  await expect.poll(() => touches.textContent()).toContain("No protected feature");
  expect(await touches.textContent()).not.toMatch(/\bsafe\b/i);
  const now = await touching();
  expect(now.id).toBe(machine.id);
  expect(await seriousFaults(page)).toEqual([]);
  expect(realFaults(faults)).toEqual([]);
  await done();
}, 120_000);

it("pins a machine and lets it go again", async () => {
  const machine = await touching();
  const { page, done } = await openPlacing("phone", machine.id);
  const pin = page.getByRole("button", { name: new RegExp(`^(✓ )?Pin.*: ${machine.name}$`) });
  await pin.click();
  await expect.poll(() => pin.getAttribute("aria-pressed"), { timeout: 15_000 }).toBe("true");
  await pin.click();
  await expect.poll(() => pin.getAttribute("aria-pressed"), { timeout: 15_000 }).toBe("false");
  await done();
});

it("is not for judges", async () => {
  const { page, done } = await openAs("judge", "desk", await contestPath("/placing"));
  expect(await page.getByRole("main").textContent()).toContain("an organiser or a safety officer");
  await done();
});
