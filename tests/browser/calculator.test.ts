/** The calculator as people use it: by keyboard, in both unit systems, with mistakes, on a phone and at a desk. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { MACHINE_KINDS } from "@/lib/throw";
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

async function calculator(screen: Screen, path = "/calculator") {
  const context = await visitor(screen);
  const { page, faults } = await openPage(context, path);
  await quickAnswer(page);
  return { page, faults, done: () => context.close() };
}

/** Waits for a quick answer to the numbers as they stand, and reads its three figures. */
async function quickAnswer(page: Page): Promise<string[]> {
  await page.locator(".strip dl:not(.live-stale)").waitFor();
  return page.locator(".strip dd").allInnerTexts();
}

const field = (page: Page, label: string) => page.getByRole("textbox", { name: label, exact: false }).first();

/** For what follows only when the page's script has caught up, on a busy machine too. */
const eventually = (read: () => Promise<unknown>) => expect.poll(read, { timeout: 20_000 });

/** Tabs on until the focus is on what the locator names; keyboard alone must get there. */
async function tabTo(page: Page, selector: string) {
  for (let presses = 0; presses < 120; presses++) {
    await page.keyboard.press("Tab");
    if (await page.locator(`${selector}:focus`).count()) return;
  }
  throw new Error(`Tab never reaches ${selector}`);
}

async function typeInto(page: Page, id: string, text: string) {
  await tabTo(page, `#field-${id}`);
  await page.keyboard.press("Control+a");
  await page.keyboard.type(text);
}

describe.each(SCREEN_NAMES)("the calculator, %s", (screen) => {
  it("takes a machine by keyboard alone and shows its official sheet", async () => {
    const { page, faults, done } = await calculator(screen);
    const before = await quickAnswer(page);
    await tabTo(page, 'input[name="kind"]');
    await page.keyboard.press("ArrowDown");
    expect(await page.getByRole("radio", { name: /Fixed counterweight/ }).isChecked()).toBe(true);
    await typeInto(page, "machine-longArm", "3.4 m");
    await typeInto(page, "machine-counterweightMass", "300");
    await typeInto(page, "projectile-mass", "3");
    await page.keyboard.press("Tab");
    const after = await quickAnswer(page);
    expect(after).not.toEqual(before);
    for (const figure of after) expect(figure).toMatch(/^\d+(\.\d)? m$/);

    await tabTo(page, "button.button-main");
    await page.keyboard.press("Enter");
    const sheet = page.getByRole("article");
    await sheet.waitFor({ timeout: 45_000 });
    const text = await sheet.textContent();
    for (const part of [
      "Exclusion distances",
      "Forward",
      "Backward",
      "Assumed",
      "Not modelled",
      "Code version",
    ]) {
      expect(text).toContain(part);
    }
    expect(text).toMatch(/safety officer, local codes and licensed\s+practice decide/);
    expect(text).toContain("3.4 m");
    expect(text).not.toMatch(/\bsafe\b/i);
    // The keep-out distance is never nearer than the worst throw.
    const metres = async (name: string) =>
      Number(
        /([\d.]+) m/.exec((await page.locator(".sheet-kept", { hasText: name }).textContent()) ?? "")?.[1],
      );
    expect(await metres("Forward")).toBeGreaterThan(Number.parseFloat(after[1] as string));
    expect(await metres("Backward")).toBeGreaterThan(Number.parseFloat(after[2] as string));

    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(faults).toEqual([]);
    await done();
  });

  it("reads feet and inches, and keeps the value through a change of units and a reload", async () => {
    const { page, done } = await calculator(screen);
    await page.getByRole("button", { name: /US customary/ }).click();
    const arm = field(page, "Long arm");
    await eventually(() => arm.inputValue()).toContain("13'");
    await arm.fill("12 ft 6 in");
    for (const figure of await quickAnswer(page)) expect(figure).toMatch(/ ft$/);
    await page.getByRole("button", { name: /metric/ }).click();
    // 12.5 ft = 3.81 m exactly (the international foot, NIST SP 811).
    await eventually(() => arm.inputValue()).toBe("3.81");
    await arm.fill("3,9");
    await page.reload();
    await eventually(() => field(page, "Long arm").inputValue()).toBe("3,9");
    await done();
  });

  it("asks which number an ambiguous comma means", async () => {
    const { page, done } = await calculator(screen);
    const weight = page.locator("#field-machine-counterweightMass");
    await weight.fill("1,234");
    const question = page.getByRole("group", { name: /Counterweight: which is meant/ });
    expect(await question.getByRole("button").allInnerTexts()).toEqual(["1234 kg", "1.234 kg"]);
    expect(await weight.getAttribute("aria-invalid")).toBe("true");
    expect(await seriousFaults(page)).toEqual([]);
    await question.getByRole("button", { name: "1234 kg" }).click();
    expect(await weight.inputValue()).toBe("1234 kg");
    expect(await weight.getAttribute("aria-invalid")).toBeNull();
    await quickAnswer(page);
    await done();
  });

  it("says of bad input which field it is and what to do, and leads there", async () => {
    const { page, done } = await calculator(screen);
    const sling = page.locator("#field-machine-slingLength");
    await sling.fill("long");
    await page.locator("#field-tolerances-longArm").evaluate((input: HTMLInputElement) => {
      (input.closest("details") as HTMLDetailsElement).open = true;
    });
    await page.locator("#field-tolerances-longArm").fill("-1");
    await page.locator("#field-tolerances-longArm").evaluate((input: HTMLInputElement) => {
      (input.closest("details") as HTMLDetailsElement).open = false;
    });
    await page.getByRole("button", { name: "Make the official sheet" }).click();
    const refused = page.getByRole("alert").filter({ hasText: "No sheet yet" });
    expect(await refused.textContent()).toMatch(/Sling length: .*long.*is not a length.*such as/s);
    expect(await page.getByRole("article").count()).toBe(0);
    const described = await sling.getAttribute("aria-describedby");
    const error = page.locator("#field-machine-slingLength-error");
    expect(described?.split(" ")).toContain("field-machine-slingLength-error");
    expect(await error.textContent()).toContain("Sling length");
    expect(await sling.inputValue()).toBe("long");
    expect(await seriousFaults(page)).toEqual([]);

    await refused.getByRole("link", { name: /Long arm ±/ }).click();
    expect(
      await page.locator("#field-tolerances-longArm").evaluate((input) => input === document.activeElement),
    ).toBe(true);
    // What is wrong between fields shows where the quick answer would be, with its way there.
    const live = page.locator(".live .notice").filter({ hasText: "Not computed" });
    expect(await live.getByRole("link", { name: /Sling length/ }).count()).toBe(1);
    // Numbers in range that make an impossible machine are refused by their field too.
    await page.locator("#field-tolerances-longArm").fill("0.01");
    await sling.fill("0.05");
    await sling.blur();
    await eventually(() => error.textContent()).toMatch(/too short to reach the trough/);
    await done();
  });

  it("draws the swing, the flights and the plot, each with a table that says the same", async () => {
    const { page, faults, done } = await calculator(screen);
    await page.getByRole("img", { name: /swing from the side/ }).waitFor();
    await page.getByRole("img", { name: /flights from the side/ }).waitFor();
    await page.getByRole("img", { name: /Distance of the first impact/ }).waitFor();
    const label = () => page.getByText(/^Instant: /).textContent();
    const start = await label();
    await page.getByRole("button", { name: /worst backwards/ }).click();
    expect(await label()).not.toBe(start);
    await page.getByText("Distance by release, in figures").click();
    const table = page.getByRole("table", { name: "First impact by release" });
    const [, , worst] = await page.locator(".strip dd").allInnerTexts();
    expect(await table.getByRole("row", { name: /worst backwards \(B\)/ }).textContent()).toContain(
      `${worst} uprange`,
    );
    expect(faults).toEqual([]);
    await done();
  });

  // What does not fit shows on the phone.
  const kinds = screen === "phone" ? MACHINE_KINDS : [];
  it.each(kinds.map(({ kind }) => kind))("takes, draws and previews a machine: %s", async (name) => {
    const { page, faults, done } = await calculator(screen);
    await page.locator(`input[name=kind][value=${name}]`).check();
    const before = await quickAnswer(page);
    // A heavier projectile is another machine for every kind but the one whose speed was measured.
    const path = name === "measured" ? "machine-releaseSpeed" : "projectile-mass";
    await page.locator(`#field-${path}`).fill(name === "measured" ? "30" : "3.3");
    await eventually(() => page.locator(".strip dd").allInnerTexts()).not.toEqual(before);
    await page.getByRole("img", { name: /drawn to scale/ }).waitFor();
    await page.getByRole("img", { name: /flights from the side/ }).waitFor();
    await page.getByRole("img", { name: /Distance of the first impact/ }).waitFor();
    // Every letter on the drawing stands at a field, and nothing is drawn outside the picture.
    const drawing = page.getByRole("img", { name: /drawn to scale/ });
    const letters = await drawing.locator(".pointer-letter").allTextContents();
    const fields = await page.locator(".entry-letter:visible").allTextContents();
    expect(letters.length, name).toBeGreaterThan(2);
    expect(fields, name).toEqual(expect.arrayContaining(letters));
    const outside = await drawing.evaluate((picture) => {
      const frame = picture.getBoundingClientRect();
      return [...picture.querySelectorAll("text, .part:not(.part-frame)")]
        .map((each) => ({ what: each.outerHTML.slice(0, 90), box: each.getBoundingClientRect() }))
        .filter(({ box }) => box.left < frame.left - 1 || box.right > frame.right + 1)
        .map(({ what }) => what);
    });
    expect(outside, name).toEqual([]);
    for (const fold of await page.locator("details.fold").all()) {
      await fold.evaluate((details: HTMLDetailsElement) => {
        details.open = true;
      });
    }
    expect(await seriousFaults(page), name).toEqual([]);
    expect(await sidewaysScroll(page), name).toBe(0);
    expect(faults).toEqual([]);
    await done();
  });

  it("takes a draw curve by keyboard, and what a choice calls for", async () => {
    const { page, done } = await calculator(screen);
    await page.getByRole("radio", { name: /Bow, bungee or spring/ }).check();
    await quickAnswer(page);
    const add = page.getByRole("button", { name: "Add a point" });
    await add.focus();
    await page.keyboard.press("Enter");
    await eventually(() => page.evaluate(() => document.activeElement?.id)).toBe(
      "field-machine-draw-4-length",
    );
    await page.keyboard.type("2.6");
    await page.keyboard.press("Tab");
    await page.keyboard.type("1000 N");
    const farther = await quickAnswer(page);
    await page.getByRole("button", { name: "Remove point 5" }).press("Enter");
    await eventually(() => page.locator(".points-row").count()).toBe(4);
    expect(await quickAnswer(page)).not.toEqual(farther);

    await page.getByRole("radio", { name: /Torsion arm/ }).check();
    const sling = page.locator("#field-machine-slingLength");
    expect(await sling.count()).toBe(1);
    await page.getByLabel("The projectile lies in", { exact: true }).selectOption("cup");
    await eventually(() => sling.count()).toBe(0);
    await quickAnswer(page);
    await done();
  });

  it("opens a shared link, every kind fits the screen, and targets fit a thumb", async () => {
    const { page, done } = await calculator(
      screen,
      "/calculator#kind=measured&machine.releaseSpeed=20&machine.launchAngle=45&machine.launchHeight=2&projectile.mass=1&projectile.diameter=0.1",
    );
    expect(await field(page, "Release speed").inputValue()).toBe("20");
    for (const kind of await page.getByRole("radio").all()) {
      await kind.check();
      await quickAnswer(page);
      expect(await sidewaysScroll(page)).toBe(0);
    }
    // WCAG 2.2 asks for 24 px; gloves for 48.
    const small = await page.evaluate(() =>
      [
        ...document.querySelectorAll<HTMLElement>(
          "button, .field input:not([type=checkbox]), select, summary, .kind",
        ),
      ]
        .filter((element) => element.checkVisibility() && element.getBoundingClientRect().height < 48)
        .map((element) => element.outerHTML.slice(0, 80)),
    );
    expect(small).toEqual([]);
    await done();
  });
});
