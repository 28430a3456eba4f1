/** The film of a throw as a team uses it: scrubbed, played, stopped; by keyboard, in still pictures, with no network. */
import type { BrowserContextOptions, Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import {
  closeBrowser,
  openPage,
  SCREEN_NAMES,
  type Screen,
  seriousFaults,
  sidewaysScroll,
  visitor,
} from "./support";

afterAll(closeBrowser);

async function film(screen: Screen, path = "/workbench/film", options: BrowserContextOptions = {}) {
  const context = await visitor(screen, options);
  const { page, faults } = await openPage(context, path);
  await page.locator("#film-instant").waitFor();
  return { page, faults, context, done: () => context.close() };
}

const clock = async (page: Page) =>
  Number.parseFloat((await page.locator("output[for=film-instant]").textContent()) ?? "");
const value = (page: Page, what: string) =>
  page
    .getByRole("row", { name: new RegExp(`^${what}`) })
    .first()
    .getByRole("cell")
    .textContent();
const goTo = (page: Page, mark: string) =>
  page
    .getByRole("group", { name: "Go to" })
    .getByRole("button", { name: new RegExp(`^${mark}`) })
    .click();
const eventually = (read: () => Promise<unknown>) => expect.poll(read, { timeout: 20_000 });

/** How many pixels of each canvas carry anything. */
const inked = (page: Page) =>
  page.locator("canvas").evaluateAll((all) =>
    (all as HTMLCanvasElement[]).map((canvas) => {
      const { data } = (canvas.getContext("2d") as CanvasRenderingContext2D).getImageData(
        0,
        0,
        canvas.width,
        canvas.height,
      );
      let count = 0;
      for (let i = 3; i < data.length; i += 4) if (data[i]) count++;
      return count;
    }),
  );

describe.each(SCREEN_NAMES)("the film, %s", (screen) => {
  it("opens at the asked instant, stands still, and tells in words what it draws", async () => {
    const { page, faults, done } = await film(screen, "/workbench/film?t=0.7");
    expect(await clock(page)).toBe(0.7);
    await page.waitForTimeout(300);
    expect(await clock(page)).toBe(0.7);
    expect(await page.getByRole("button", { name: "Play", exact: true }).count()).toBe(1);
    expect(await value(page, "Sling tension")).toMatch(/^[\d.]+ k?N$/);
    expect(await value(page, "Largest bending")).toMatch(/N·m, .*(pivot|arm)/);
    expect(await value(page, "Long arm")).toMatch(/° (above|below) the horizontal, uprange/);
    for (const count of await inked(page)) expect(count).toBeGreaterThan(100);
    await goTo(page, "Landing");
    expect(await value(page, "Height")).toBe("0.0 m");
    const landed = await value(page, "Projectile downrange");
    await page.getByText("The film in figures").click();
    const marks = page.getByRole("table", { name: "The marked instants" });
    expect(await marks.getByRole("row", { name: /^Landing/ }).textContent()).toContain(landed);
    expect(await page.locator("main").textContent()).not.toMatch(/\bsafe\b/i);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(faults).toEqual([]);
    await done();
  });

  it("plays slowly and pauses, and is scrubbed by keyboard", async () => {
    const { page, done } = await film(screen);
    const slider = page.locator("#film-instant");
    await slider.focus();
    await page.keyboard.press("ArrowRight");
    await eventually(() => clock(page)).toBeGreaterThan(0);
    const stepped = await clock(page);
    await page.keyboard.press("End");
    const end = await clock(page);
    expect(end).toBeGreaterThan(2);
    await page.keyboard.press("Home");
    expect(await clock(page)).toBe(0);
    expect(stepped).toBeLessThan(end / 100);

    const [still] = await inked(page);
    await page.getByRole("button", { name: "Play", exact: true }).click();
    await eventually(() => clock(page)).toBeGreaterThan(0.1);
    await page.getByRole("button", { name: "Pause", exact: true }).click();
    const paused = await clock(page);
    expect(paused).toBeLessThan(end);
    await page.waitForTimeout(300);
    expect(await clock(page)).toBe(paused);
    expect(Number(await slider.inputValue())).toBeGreaterThan(0);
    expect((await inked(page))[0]).toBe(still);
    await done();
  });

  if (screen === "phone")
    it("goes through still pictures where motion is not wanted", async () => {
      const { page, done } = await film(screen, "/workbench/film", { reducedMotion: "reduce" });
      await page.getByRole("button", { name: "Play in still pictures" }).click();
      const seen = await page.evaluate(
        () =>
          new Promise<string[]>((resolve) => {
            const seen: string[] = [];
            const began = performance.now();
            const look = () => {
              const now = document.querySelector("output")?.textContent ?? "";
              if (seen.at(-1) !== now) seen.push(now);
              if (performance.now() - began > 3600) resolve(seen);
              else requestAnimationFrame(look);
            };
            look();
          }),
      );
      // About one a second, and not a motion between them.
      expect(seen.length).toBeGreaterThan(2);
      expect(seen.length).toBeLessThan(6);
      await done();
    });

  if (screen === "phone")
    it("works out the keep-out outline on asking, with no network too", async () => {
      const { page, context, faults, done } = await film(screen);
      await page.getByRole("button", { name: "Copy a link" }).waitFor();
      await context.setOffline(true);
      await page.getByRole("button", { name: "Work out the keep-out outline" }).click();
      await page.getByRole("img", { name: /^Keep-out zone from above/ }).waitFor({ timeout: 60_000 });
      expect(await page.getByRole("note").textContent()).toMatch(
        /Only the hazard sheet of the contest's server\s+is official/,
      );
      await goTo(page, "Slip-off");
      const [left] = await page
        .locator(".reach-drawing circle[r='7']")
        .evaluateAll((all) => all.map((each) => each.getAttribute("cy")));
      await goTo(page, "Landing");
      const [landed] = await page
        .locator(".reach-drawing circle[r='7']")
        .evaluateAll((all) => all.map((each) => each.getAttribute("cy")));
      // Downrange is up.
      expect(Number(landed)).toBeLessThan(Number(left));
      expect(await seriousFaults(page)).toEqual([]);
      expect(await sidewaysScroll(page)).toBe(0);
      expect(faults.filter((fault) => !fault.includes("ERR_INTERNET_DISCONNECTED"))).toEqual([]);
      await done();
    });
});

it("shows a hang-up where the loop does not slip, in either unit system", async () => {
  const { page, done } = await film("phone");
  const elsewhere = page.waitForEvent("worker");
  await page.getByRole("checkbox", { name: /The loop does not slip/ }).check();
  await elsewhere;
  const marks = page.getByRole("group", { name: "Go to" });
  await marks.getByRole("button", { name: /^End/ }).waitFor();
  expect(await marks.getByRole("button", { name: /^Landing/ }).count()).toBe(0);
  await goTo(page, "Most sling tension");
  const newtons = await value(page, "Sling tension");
  expect(newtons).toMatch(/N$/);
  await page.getByRole("button", { name: /US customary/ }).click();
  await eventually(() => value(page, "Sling tension")).toMatch(/lbf$/);
  expect(await sidewaysScroll(page)).toBe(0);
  await done();
});

// One by its equations of motion, two by formulas with and without a way of their own.
it.each(["torsion", "spinning-arm", "air-cannon"])("films %s to its landing", async (kind) => {
  const { page, faults, done } = await film("desk");
  await page.goto("/workbench");
  await page.locator(`input[name=kind][value=${kind}]`).check({ force: true });
  await page.locator(".strip dl:not(.live-stale)").waitFor();
  const meant = (await page.locator(".strip dd").allInnerTexts())[0];
  await page.getByRole("link", { name: "Film" }).click();
  await page.locator("#film-instant").waitFor();
  await goTo(page, "Landing");
  expect(await value(page, "Projectile downrange")).toBe(meant);
  expect(await value(page, "Height")).toBe("0.0 m");
  expect(faults).toEqual([]);
  await done();
});
