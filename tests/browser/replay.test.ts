/** Accident replay as people use it: from the calculator, by thumb and by keyboard, in both unit systems. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { closeBrowser, openPage, SCREEN_NAMES, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const PATIENCE = { timeout: 60_000 };

async function explained(page: Page) {
  await page.getByRole("button", { name: "Find what explains it" }).click();
  await page.getByRole("table", { name: "Explanations" }).waitFor(PATIENCE);
}

const fill = (page: Page, label: string, text: string) =>
  page.getByRole("textbox", { name: label }).fill(text);

describe.each(SCREEN_NAMES)("accident replay, %s", (screen) => {
  it("comes from the calculator with its machine, and explains a landing behind it", async () => {
    const context = await visitor(screen);
    const { page, faults } = await openPage(context, "/calculator");
    await page.locator(".strip dl:not(.live-stale)").waitFor();
    await page.getByRole("radio", { name: /Floating arm/ }).check();
    await page.getByRole("link", { name: "Find what explains it" }).click();
    await page.getByRole("heading", { level: 1, name: "What explains where it landed?" }).waitFor();
    expect(await page.getByText(/^Floating arm/).count()).toBeGreaterThan(0);

    await page.getByRole("button", { name: "Find what explains it" }).click();
    expect(await page.locator("#landing-distance-error").textContent()).toContain(
      "Distance from the firing point",
    );

    await fill(page, "Distance from the firing point", "25");
    await fill(page, "Direction off the bearing", "175");
    await page.getByRole("radio", { name: "The projectile, whole" }).check();
    await explained(page);
    const list = page.getByRole("list").filter({ hasText: "fits within" });
    expect(await list.textContent()).toMatch(/Left 0\.\d\d s early.*5° to the left.*fits within/);
    const pictures = page.getByRole("img", { name: /found 25\.0 m, 175° to the right of the bearing/ });
    // The zone of the official sheet follows the answer.
    await pictures.locator("polygon").waitFor(PATIENCE);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(faults).toEqual([]);

    // A reload loses nothing that was entered.
    await page.reload();
    await expect.poll(() => page.locator("#landing-distance").inputValue()).toBe("25");
    await context.close();
  });

  it("says plainly when nothing explains it, in feet too", async () => {
    const context = await visitor(screen);
    const { page, faults } = await openPage(context, "/calculator/replay");
    await page.getByRole("button", { name: /US|ft/ }).first().click();
    await page.getByRole("radio", { name: "Ahead and aside" }).check();
    await fill(page, "Downrange", "5000");
    await fill(page, "To the right of the bearing", "0");
    await page.getByRole("radio", { name: "The projectile, whole" }).check();
    await explained(page);
    const alert = page.getByRole("alert").filter({ hasText: "hold the range" });
    expect(await alert.textContent()).toMatch(/model is wrong for this machine.*The range holds/);
    expect(await page.getByText("Found 5000 ft from the firing point").count()).toBe(1);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  });
});
