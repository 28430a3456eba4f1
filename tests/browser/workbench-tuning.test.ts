/** Tuning on the workbench: sliders, the curve, what a step does, the search, and a revision made of what it found. */
import type { Page } from "playwright-core";
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

const eventually = (read: () => Promise<unknown>) => expect.poll(read, { timeout: 20_000 });

async function tuningPage(screen: Screen) {
  const context = await visitor(screen);
  const { page, faults } = await openPage(context, "/workbench/tuning");
  await answered(page);
  return { page, faults, context, done: () => context.close() };
}

/** Metres as meant, ahead and behind, once they are of what stands at the sliders. */
async function answered(page: Page): Promise<number[]> {
  await strip(page).locator("dl:not(.live-stale)").waitFor();
  const texts = await strip(page)
    .locator("dd")
    .evaluateAll((all) => all.map((each) => each.firstChild?.textContent ?? ""));
  return texts.map((text) => Number.parseFloat(text));
}

const strip = (page: Page) => page.getByRole("region", { name: "What it throws now" });
const slider = (page: Page, label: string) => page.getByRole("slider", { name: `${label}, slider` });

describe.each(SCREEN_NAMES)("tuning, %s", (screen) => {
  it("answers to sliders and fields, draws the curve and tells what steps do", async () => {
    const { page, faults, done } = await tuningPage(screen);
    const before = await answered(page);
    expect(before.every((metres) => metres > 10)).toBe(true);

    // By keyboard: the slider moves the field beside it, and the throw.
    const angle = slider(page, "Release angle");
    await angle.focus();
    for (let press = 0; press < 16; press++) await page.keyboard.press("ArrowRight");
    await eventually(() => page.locator("#tune-releaseAngle").inputValue()).toBe("46");
    await eventually(async () => (await answered(page))[0]).toBeLessThan((before[0] as number) - 5);
    // Every release instant counts for the worst, wherever the pin is set.
    expect((await answered(page)).slice(1)).toEqual(before.slice(1));

    await page.getByRole("img", { name: /Throw as meant against release angle/ }).waitFor();
    await page.getByLabel("Number", { exact: true }).selectOption("slingLength");
    await page.getByRole("img", { name: /Throw as meant against sling length/ }).waitFor();
    await page.getByText("The curve, in figures").click();
    expect(
      await page.getByRole("table", { name: "Throw as meant by sling length" }).getByRole("row").count(),
    ).toBe(14);

    const steps = page.getByRole("list", { name: "Steps, by effect" });
    const sentence = () =>
      steps.getByText(/^1° of release angle is \d+\.\d m: more throws shorter\.$/).count();
    await eventually(sentence).toBe(1);

    // What cannot be built says why, and the field takes exact numbers.
    await page.locator("#tune-slingLength").fill("10 cm");
    await eventually(() => strip(page).getByRole("status").textContent()).toMatch(
      /too short to reach the trough/,
    );
    await page.getByRole("button", { name: "Back to the revision's numbers" }).click();
    await eventually(() => answered(page)).toEqual(before);

    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(faults).toEqual([]);
    await done();
  });

  if (screen === "phone")
    it("searches within limits, stands the answer beside the machine and makes a revision of it", async () => {
      const { page, faults, done } = await tuningPage(screen);
      const [meant, , behind] = (await answered(page)) as [number, number, number];
      // A limit that the machine breaks as it stands.
      await page.getByLabel(/^Room behind/).fill(`${Math.floor(0.9 * behind)}`);
      await page.getByRole("button", { name: "Search", exact: true }).click();
      const found = page.getByRole("region", { name: "What the search found" });
      await found.waitFor({ timeout: 55_000 });
      expect(await found.textContent()).toContain("Found for the farthest throw");
      expect(await found.textContent()).not.toMatch(/\bsafe\b/i);
      const row = async (name: string) =>
        (await found.getByRole("row", { name }).getByRole("cell").allTextContents()).map(Number.parseFloat);
      const [was, is] = (await row("Worst behind")) as [number, number];
      expect(was).toBe(behind);
      expect(is).toBeLessThanOrEqual(Math.floor(0.9 * behind));
      const [, tuned] = (await row("Throw as meant")) as [number, number];
      expect(tuned).toBeGreaterThan(0.5 * meant);
      expect(await seriousFaults(page)).toEqual([]);
      expect(await sidewaysScroll(page)).toBe(0);

      await found.getByRole("button", { name: "Make this a new revision" }).click();
      await eventually(() => page.locator("#tuning-revision option:checked").textContent()).toBe(
        "2. Tuned: the farthest throw",
      );
      await eventually(async () => (await answered(page))[0]).toBe(tuned);
      expect(await page.getByText(/came from tuning/).textContent()).toContain("new hazard sheet");
      // The first revision is as it was.
      await page.getByLabel("Revision", { exact: true }).selectOption("1");
      await eventually(async () => (await answered(page))[0]).toBe(meant);
      expect(faults).toEqual([]);
      await done();
    });

  if (screen === "phone")
    it("hits a mark in feet, stops when told, and says what is missing", async () => {
      const { page, faults, done } = await tuningPage(screen);
      await page.getByRole("button", { name: /US customary/ }).click();
      await page.getByRole("radio", { name: /Hit a mark, steadily/ }).check();
      await page.getByRole("button", { name: "Search", exact: true }).click();
      expect(await page.getByRole("alert").filter({ hasText: "Not searched yet" }).textContent()).toContain(
        "Distance of the mark",
      );
      await page.getByLabel("Distance of the mark").fill("450 ft");
      await page.getByRole("button", { name: "Search", exact: true }).click();
      await page.getByRole("button", { name: "Stop the search" }).click();
      expect(await page.getByText("Stopped: nothing was found out.").count()).toBe(1);
      await page.getByRole("button", { name: "Search", exact: true }).click();
      const found = page.getByRole("region", { name: "What the search found" });
      await found.waitFor({ timeout: 55_000 });
      const cells = await found
        .getByRole("row", { name: "Throw as meant" })
        .getByRole("cell")
        .allTextContents();
      expect(Number.parseFloat(cells[1] as string)).toBeCloseTo(450, -0.5);
      expect(cells[1]).toMatch(/ ft$/);
      expect(await seriousFaults(page)).toEqual([]);
      expect(faults).toEqual([]);
      await done();
    });
});

it("works with the network gone, and every kind can be turned", async () => {
  const { page, context, done } = await tuningPage("phone");
  await context.setOffline(true);
  const before = await answered(page);
  await slider(page, "Counterweight").focus();
  await page.keyboard.press("End");
  await eventually(async () => (await answered(page))[0]).toBeGreaterThan(before[0] as number);
  await context.setOffline(false);
  for (const kind of ["torsion", "tension", "spinning-arm", "air-cannon", "measured", "floating-arm"]) {
    await page.goto(`/workbench`);
    await page.locator(`input[name=kind][value=${kind}]`).check();
    await page.locator(".strip dl:not(.live-stale)").waitFor();
    await page.getByRole("navigation", { name: "Workbench" }).getByRole("link", { name: "Tuning" }).click();
    const [metres] = await answered(page);
    expect(metres, kind).toBeGreaterThan(10);
    expect(await page.getByRole("slider").count(), kind).toBeGreaterThan(1);
    await page.getByRole("img", { name: /Throw as meant against/ }).waitFor();
    expect(await sidewaysScroll(page), kind).toBe(0);
  }
  expect(await seriousFaults(page)).toEqual([]);
  await done();
});
