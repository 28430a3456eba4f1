/** What may break, and the stop: from declared strengths to reserves, help, a design, and one page of paper each. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { MACHINE_KINDS } from "@/lib/throw";
import { firstPage } from "./pdf-lines";
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

/** A floating arm with its projectile, as a link holds them. */
function linkTo(path: string, kind: string, more: Record<string, string | number> = {}): string {
  const found = MACHINE_KINDS.find((each) => each.kind === kind);
  const numbers = (prefix: string, from: object) =>
    Object.entries(from).flatMap(([name, value]): [string, string][] => {
      if (typeof value === "number") return [[`${prefix}.${name}`, String(value)]];
      if (Array.isArray(value))
        return value.flatMap((row: object, i) => numbers(`${prefix}.${name}.${i}`, row));
      return [];
    });
  const parameters = new URLSearchParams([
    ["kind", kind],
    ...numbers("machine", found?.example ?? {}),
    ...numbers("projectile", found?.exampleProjectile ?? {}),
    ...Object.entries(more).map(([name, value]): [string, string] => [name, String(value)]),
  ]);
  return `${path}#${parameters}`;
}

const EVERYTHING = {
  "strengths.sling": "rope",
  "strengths.sling.ropeRating": 6000,
  "strengths.arm.material": "wood",
  "strengths.arm.material.wood": "douglas-fir",
  "strengths.arm.section": "rectangular",
  "strengths.arm.sections.pivot.depth": 0.14,
  "strengths.arm.sections.pivot.width": 0.1,
  "strengths.pivot": 20000,
  "strengths.hanger": 15000,
  "strengths.stop.stroke": 0.2,
  "strengths.stop.force": 20000,
  "strengths.frame.mass": 200,
  "strengths.frame.footprint": 3,
};

async function opened(screen: Screen, path: string) {
  const context = await visitor(screen);
  const { page, faults } = await openPage(context, path);
  return { context, page, faults, done: () => context.close() };
}

const card = (page: Page) => page.getByRole("article");
/** One part's panel on the card. */
const part = (page: Page, name: string) => page.getByRole("region", { name, exact: true });
const settled = (page: Page) => page.locator("article[aria-busy=false]").waitFor();
const eventually = (read: () => Promise<unknown>) => expect.poll(read, { timeout: 20_000 });

async function isWellMade(page: Page) {
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await page.locator("main").textContent()).not.toMatch(/\bsafe\b/i);
}

async function printsOnOnePage(page: Page) {
  for (const format of ["A4", "Letter"]) {
    const pdf = await page.pdf({ format, printBackground: true });
    expect(firstPage(pdf).pages, format).toBe(1);
  }
}

describe.each(SCREEN_NAMES)("what may break, %s", (screen) => {
  it("answers a declared rope with its reserve, its instant and the rope that would do", async () => {
    const { page, faults, context, done } = await opened(screen, "/workbench/strength");
    await settled(page);
    const sling = part(page, "Sling");
    expect(await sling.textContent()).toContain("No reserve is known");
    await page.locator("#field-strengths-sling").selectOption("rope");
    await page.getByRole("textbox", { name: /Rope.s breaking strength/ }).fill("3000");
    await eventually(() => sling.textContent()).toMatch(/Below the usual factor of 5|Breaks: do not throw/);
    const instant = sling.getByRole("link").first();
    expect(await instant.getAttribute("href")).toMatch(/^\/workbench\/film\?t=\d+\.\d{4}$/);
    await eventually(() => sling.textContent()).toMatch(/Rope rated [\d ]+ N each/);
    expect(await sling.textContent()).toMatch(/Or a counterweight of \d+ kg|No lighter counterweight/);

    // The rope that is said to be enough is: without knots it need be half as strong.
    const rated = /Rope rated (\d+) N each/.exec((await sling.textContent()) ?? "")?.[1] as string;
    await page.getByRole("textbox", { name: /Rope.s breaking strength/ }).fill(rated);
    const row = sling.getByRole("row").filter({ hasText: "Throw as meant" });
    await eventually(() => row.textContent()).toContain("meets the usual factor of 5");
    // With the network gone it goes on.
    await context.setOffline(true);
    await page.getByRole("textbox", { name: /Rope.s breaking strength/ }).fill("1000");
    await eventually(() => row.textContent()).toMatch(/Below the usual factor of 5|Breaks: do not throw/);
    await context.setOffline(false);
    await page.getByRole("button", { name: /US customary/ }).click();
    await eventually(() => row.textContent()).toMatch(/lbf/);
    await isWellMade(page);
    expect(faults.filter((fault) => !fault.includes("ERR_INTERNET_DISCONNECTED"))).toEqual([]);
    await done();
  });

  it("tells a stop's normal throw, dry fire and torn sling apart, and prints on one page", async () => {
    const link = linkTo("/workbench/strength", "floating-arm", EVERYTHING);
    const { page, faults, done } = await opened(screen, link);
    await settled(page);
    const stop = part(page, "End stop");
    for (const life of ["Throw as meant", "Dry fire", "Sling tears"])
      await stop.getByRole("row").filter({ hasText: life }).waitFor();
    await eventually(() => stop.textContent()).toMatch(/a way of [\d.]+ m where it works as a spring/);
    await isWellMade(page);
    await printsOnOnePage(page);
    expect(faults).toEqual([]);
    await done();
  });

  // What does not fit shows on the phone. One of each sort of card.
  const kinds = screen === "phone" ? ["fixed-counterweight", "torsion", "tension", "air-cannon"] : [];
  it.each(kinds)("says what applies to a machine: %s", async (kind) => {
    const { page, faults, done } = await opened(screen, linkTo("/workbench/strength", kind));
    await settled(page);
    const text = await card(page).textContent();
    expect(text).toContain("The machine as a whole");
    if (["tension", "air-cannon"].includes(kind)) expect(text).toMatch(/not judged|none is judged/);
    else expect(text).toContain("Arm in bending");
    await isWellMade(page);
    expect(faults).toEqual([]);
    await done();
  });
});

describe.each(SCREEN_NAMES)("the stop designer, %s", (screen) => {
  it("takes what arrives with the most energy, and designs for it on one page of paper", async () => {
    const link = linkTo("/workbench/stop", "floating-arm", EVERYTHING);
    const { page, faults, done } = await opened(screen, link);
    const source = page.getByLabel("Arriving energy from");
    await eventually(() => source.inputValue()).not.toBe("typed");
    const energies = (await source.locator("option").allInnerTexts())
      .map((text) => /: (\d+) J/.exec(text)?.[1])
      .filter((energy) => energy !== undefined)
      .map(Number);
    const text = await card(page).textContent();
    expect(energies.length).toBeGreaterThan(2);
    expect(text).toContain(`${Math.max(...energies)} J`);
    for (const named of [
      "Bolts in shear",
      "Anchoring of the frame",
      "Drop test",
      "common practice, no source",
    ])
      expect(text).toContain(named);
    await isWellMade(page);
    await printsOnOnePage(page);
    expect(faults).toEqual([]);
    await done();
  });

  it("holds closed forms: a spring that takes 1000 J over 0.5 m peaks at 4000 N; 50 kg fall h = E/(m·g) − s", async () => {
    const { page, faults, done } = await opened(screen, linkTo("/workbench/stop", "measured"));
    await page.getByRole("textbox", { name: /Arriving energy/ }).fill("1000");
    await page.getByRole("textbox", { name: /Way of the stop/ }).fill("0.5");
    await page.getByRole("textbox", { name: /Weight to drop/ }).fill("50");
    await page.locator("#stop-kind").selectOption("spring");
    const kinds = page.getByRole("table", { name: "Every kind of stop under the same limit" });
    await eventually(() => kinds.getByRole("row", { name: /^Spring/ }).textContent()).toMatch(/4000 N/);
    const steps = page.getByRole("table", { name: /A weight of 50/ });
    const whole = steps.getByRole("row").filter({ hasText: /100 %/ });
    expect(await whole.textContent()).toContain(`${(1000 / (50 * 9.80665) - 0.5).toFixed(2)} m`);

    // Another stop is wanted where a force is given; what is missing is asked for by name.
    await page.getByLabel("What is given").selectOption("deceleration");
    await eventually(() => page.locator("main").textContent()).toMatch(/Moving mass: give what moves/i);
    await page.getByRole("textbox", { name: /Moving mass/ }).fill("100");
    await eventually(() => kinds.getByRole("row", { name: /^Spring/ }).textContent()).toContain(
      "20 × gravity",
    );
    await page.locator("#stop-kind").selectOption("curve");
    await page.getByRole("textbox", { name: "Force, point 2" }).fill("much");
    await eventually(() => page.locator("main").textContent()).toContain("Measured force:");
    await page.getByRole("textbox", { name: "Force, point 2" }).fill("60000");
    await page.getByRole("textbox", { name: "Force, point 3" }).fill("70000");
    await page.reload();
    await eventually(() => page.getByRole("textbox", { name: "Force, point 3" }).inputValue()).toBe("70000");
    await page.getByRole("button", { name: /US customary/ }).click();
    await eventually(() => page.getByRole("textbox", { name: /Weight to drop/ }).inputValue()).toMatch(
      /^110/,
    );
    await isWellMade(page);
    expect(faults).toEqual([]);
    await done();
  });
});
