/** The days before: a checklist whose ticks fall with their numbers, a drum filled, a trailer loaded, ground levelled. */
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { firstPage } from "./pdf-lines";
import { closeBrowser, openPage, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const eventually = (read: () => Promise<unknown>) => expect.poll(read, { timeout: 20_000 });
const main = (page: Page) => page.locator("main");
const type = async (page: Page, numbers: Record<string, string>) => {
  for (const [id, text] of Object.entries(numbers)) await page.locator(`#${id}`).fill(text);
};
/** What stands beside a label of the results. */
const fact = (page: Page, label: string) =>
  page
    .locator("dl > div")
    .filter({ has: page.getByText(label, { exact: true }) })
    .locator("dd");
/** How many are looked at or packed; STOP of the practice throws would be told above it. */
const count = (page: Page) => page.getByRole("status").filter({ hasText: /^\d+ of \d+/ });
const line = (page: Page, name: RegExp) => page.getByRole("button", { name, expanded: false });

async function go(page: Page, section: string) {
  await page.getByRole("navigation", { name: "Before the day" }).getByRole("link", { name: section }).click();
  await page.getByRole("heading", { level: 2, name: section }).waitFor();
}

async function isWellMade(page: Page) {
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await main(page).textContent()).not.toMatch(/\bsafe\b/i);
}

it("on a phone: ticks are kept and fall with their numbers; the rest is reckoned with no network", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/workbench/before");
  await eventually(() => main(page).textContent()).toMatch(/Peak push on the frame: \d+ N/);
  await page.getByRole("radio", { name: "Looked at" }).check();
  await page.getByLabel("Note to structure and joints").fill("Bolt 3 replaced");
  await page.getByRole("button", { name: "Next: Arm" }).click();
  await page.getByRole("radio", { name: "To do" }).check();
  await line(page, /^Release pin/).click();
  await page.getByRole("radio", { name: "Looked at" }).check();
  await isWellMade(page);
  await page.reload();
  await line(page, /^Structure and joints ✓ Looked at/).waitFor();

  // A heavier arm: what bore it falls, the pin does not.
  await page.getByRole("link", { name: "Machine", exact: true }).click();
  await page.locator("#field-machine-armMass").fill("47");
  await page.getByRole("link", { name: "Before the day" }).click();
  await page.getByRole("button", { name: /^Structure and joints ! Look again/, expanded: true }).waitFor();
  await page.getByText("Changed: arm mass.").waitFor();
  expect(await page.getByLabel("Note to structure and joints").inputValue()).toBe("Bolt 3 replaced");
  await line(page, /^Arm ! To do/).waitFor();
  await line(page, /^Release pin ✓ Looked at/).waitFor();
  expect(await count(page).textContent()).toMatch(/^1 of 16 looked at, 1 to do/);

  await context.setOffline(true);
  await go(page, "Height on the road");
  await type(page, { "height-bed": "0.62", "height-bridge": "4.1", "height-line": "5.5" });
  // 2.9 + 1.05·sin 40° on a bed of 0.62 m: 4.195 m, never less on the road.
  await eventually(() => fact(page, "Height above the road").textContent()).toBe("4.20 m");
  expect(await fact(page, "Under the lowest bridge or branch").textContent()).toBe(
    "Strikes: 0.09 m too high",
  );
  expect(await fact(page, "Under the lowest line").textContent()).toContain("what is asked for is not known");
  // What is typed wrong is not reckoned as if it were empty.
  await type(page, { "height-above": "-0.4" });
  await page.getByText("until this is put right or emptied: Frame above arm and pivot.").waitFor();
  expect(await fact(page, "Height above the road").count()).toBe(0);
  await type(page, { "height-above": "" });
  await fact(page, "Height above the road").waitFor();
  await isWellMade(page);
  await go(page, "Weight on the trailer");
  await type(page, { "trailer-axle": "3", "trailer-emptyMass": "200", "trailer-emptyHitch": "20" });
  await page.getByRole("button", { name: "Add the machine’s own masses" }).click();
  // Worked by hand: 20 + 47·(3 − 1)/3 + 420·(3 − 3.2)/3 = 23.3 kg of 667 kg.
  await page.getByLabel("Behind the hitch, Arm").fill("1");
  await page.getByLabel("Behind the hitch, Counterweight").fill("3.2");
  await eventually(() => fact(page, "On the hitch").textContent()).toMatch(/^23 kg \(229 N\)/);
  expect(await fact(page, "On the hitch, of what has a place").textContent()).toMatch(
    /^3.5 %. Light on the hitch/,
  );
  // 200 + 47 + 420 kg and ten projectiles of 4 kg, which have no place yet.
  expect(await fact(page, "Gross mass").textContent()).toMatch(/^707 kg /);
  expect(await fact(page, "On the hitch").textContent()).toContain("without the 40 kg that have no place");
  await isWellMade(page);

  await go(page, "Anchoring");
  await type(page, { "anchor-frameMass": "300", "anchor-footprint": "3.2", "anchor-pegLevel": "2500" });
  const held = page.getByRole("table", { name: "What pegs and ties must hold" });
  await eventually(() => held.textContent()).toMatch(/Throw as meant.*pegs at each end, factor 2/s);
  await eventually(() => fact(page, "Instant by instant, hang-ups too").textContent()).toMatch(
    /^it tips over its (front|rear) edge at [\d.]+ s unless the other end is held down as the last line of the table says$/,
  );
  await isWellMade(page);
  await go(page, "Raising");
  await page.locator("#raise-task").selectOption("stand");
  // A beam that lies level, its line over a pole: T = m·g·c·√(d² + h²) / (d·h).
  await type(page, { "raise-mass": "180", "raise-centre": "2", "raise-held": "3.2", "raise-poleY": "2.4" });
  const pull = (180 * 9.80665 * 2 * Math.hypot(3.2, 2.4)) / (3.2 * 2.4);
  await eventually(() => fact(page, "Largest pull").textContent()).toMatch(
    new RegExp(`^${Number(pull.toPrecision(3))} N, with 0.0° above level`),
  );
  await isWellMade(page);

  await go(page, "Level ground");
  await type(page, {
    "ground-length": "3",
    "ground-width": "2",
    "ground-frontLeft": "1.3",
    "ground-frontRight": "1.37",
    "ground-rearLeft": "1.2",
  });
  await eventually(() => fact(page, "Leans along the throw").textContent()).toMatch(
    /^1.9° downrange; .*outside of it/,
  );
  await eventually(() => fact(page, "To the side").textContent()).toMatch(/^[\d.]+ m to the right/);
  const packing = page.getByRole("table", { name: "What to lay under each foot" });
  expect(await packing.getByRole("row", { name: /Front right/ }).textContent()).toContain("170 mm");
  await page.getByRole("button", { name: /US customary/ }).click();
  await eventually(() => packing.getByRole("row", { name: /Front right/ }).textContent()).toContain(
    "6.69 in",
  );
  await isWellMade(page);

  await go(page, "Running clearances");
  await eventually(() => fact(page, "Tip to ground, arm hanging straight down").textContent()).toContain(
    "strikes",
  );
  await page.locator("#gap-hanger").fill("1 in");
  await eventually(() => fact(page, "Counterweight to frame, leaning").textContent()).toMatch(
    /^1.00 in, 1.97 in wanted/,
  );
  await isWellMade(page);
  expect(faults.filter((fault) => !fault.includes("ERR_INTERNET_DISCONNECTED"))).toEqual([]);
  await context.close();
});

it("at a desk: a drum that is filled becomes a revision, and the checklist goes with it onto paper", async () => {
  const context = await visitor("desk");
  const { page, faults } = await openPage(context, "/workbench/before");
  await line(page, /^Release pin/).click();
  await page.getByRole("radio", { name: "Looked at" }).check();
  await line(page, /^Counterweight and how/).click();
  await page.getByRole("radio", { name: "Looked at" }).check();
  await isWellMade(page);

  await go(page, "Counterweight fill");
  // The gaps typed for stone are none of water's.
  await page.locator("#fill-fill").selectOption("gravel");
  await page.locator("#fill-voids").fill("0.5");
  await eventually(() => fact(page, "A full volume of it weighs").textContent()).toMatch(/^1325 kg/);
  await page.locator("#fill-fill").selectOption("water");
  await eventually(() => fact(page, "A full volume of it weighs").textContent()).toMatch(/^1000 kg/);
  await page.locator("#fill-fill").selectOption("dry-sand");
  await page.locator("#fill-voids").fill("");
  await type(page, {
    "fill-diameter": "0.57",
    "fill-length": "0.85",
    "fill-drumMass": "18",
    "fill-cradleMass": "40",
    "fill-outerDiameter": "0.6",
    "fill-outerLength": "0.88",
    "fill-cradleWidth": "0.58",
    "fill-cradleLength": "0.92",
  });
  // Upright: π/4·0.57²·0.85 m³ of 1643 kg/m³, with 58 kg of steel; 362 kg of it for 420 kg.
  const full = (Math.PI / 4) * 0.57 ** 2 * 0.85 * 2650 * 0.62 + 58;
  await eventually(() => fact(page, "Full to the lid").textContent()).toMatch(
    new RegExp(`^${Math.round(full)} kg, `),
  );
  expect(await fact(page, "For 420 kg").textContent()).toBe(
    "not with these: full they are 5.6 kg too light; take a denser filling or another drum",
  );
  await page.locator("#fill-wanted").fill("300");
  // (300 − 58) kg over π/4·0.57² m² of 1643 kg/m³.
  await eventually(() => fact(page, "For 300 kg").textContent()).toMatch(
    /^fill to 0.58 m .*, 242 kg of filling/,
  );
  expect(await fact(page, "Across the cradle").textContent()).toBe("does not go in: 20 mm too large");
  await isWellMade(page);
  await page.getByRole("button", { name: /^New revision with .* full to the lid/ }).click();
  await page.getByText(/On the bench: a revision with a counterweight of/).waitFor();
  await go(page, "Checklist");
  await line(page, /^Release pin ✓ Looked at/).waitFor();
  await line(page, /^Counterweight and how it is held ! Look again/).waitFor();
  for (const format of ["A4", "Letter"]) {
    const pdf = await page.pdf({ format, printBackground: true });
    expect(firstPage(pdf).pages, format).toBeLessThanOrEqual(2);
  }
  await go(page, "Spare parts");
  await page.getByRole("radio", { name: "Packed" }).check();
  await eventually(() => count(page).textContent()).toMatch(/^1 of \d+ packed/);
  expect(firstPage(await page.pdf({ format: "Letter" })).pages).toBe(1);
  await isWellMade(page);

  // A browser that keeps nothing says so, and forgets nothing while the page is open.
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new Error("full");
    };
  });
  await page.getByRole("radio", { name: "To get" }).check();
  await page.getByText("Not kept: the checklist and spare parts", { exact: true }).waitFor();
  await go(page, "Checklist");
  await go(page, "Spare parts");
  await eventually(() => count(page).textContent()).toMatch(/^0 of \d+ packed/);

  // Another kind has other lines and sections.
  await page.locator("nav").getByRole("link", { name: "Machine", exact: true }).click();
  await page.getByRole("radio", { name: /^Air cannon/ }).check();
  await page.getByRole("link", { name: "Before the day" }).click();
  await line(page, /^Chamber and its papers/).click();
  await page
    .getByText("Pressure at the shot: 3.50 bar; rated: 6.00 bar; reserve: 1.7.", { exact: true })
    .waitFor();
  expect(await page.getByRole("link", { name: "Counterweight fill" }).count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
});
