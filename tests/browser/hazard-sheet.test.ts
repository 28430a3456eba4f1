/** The hazard sheet as a safety officer reads it: in their order, with reasons, on any screen and on two pages of A4. */
import type { Locator, Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import {
  type HazardRequest,
  type HazardRequestInput,
  type HazardSheet,
  hazardRequestSchema,
  hazardSheetSchema,
  MACHINE_KINDS,
} from "@/lib/throw";
import { contestPath, openAs, overviewOf } from "./fair-visitors";
import {
  closeBrowser,
  openPage,
  programUrl,
  type Screen,
  seriousFaults,
  sidewaysScroll,
  visitor,
} from "./support";

afterAll(closeBrowser);

const PARTS = [
  "How far forward",
  "How far back",
  "How wide",
  "How high",
  "What may break",
  "How sure",
  "Not modelled",
  "Assumed",
  "Computed from",
];

interface Made {
  sheet: HazardSheet;
  request: HazardRequest;
}

async function made(input: HazardRequestInput): Promise<Made> {
  const answer = await fetch(`${programUrl()}/api/v1/hazard`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(input),
  });
  expect(answer.status).toBe(200);
  return { sheet: hazardSheetSchema.parse(await answer.json()), request: hazardRequestSchema.parse(input) };
}

const exampleOf = ({ example, exampleProjectile }: (typeof MACHINE_KINDS)[number]): HazardRequestInput => ({
  machine: example,
  projectile: exampleProjectile,
});

const kindOf = (name: string) =>
  MACHINE_KINDS.find(({ kind }) => kind === name) as (typeof MACHINE_KINDS)[number];

/** The calculator with a sheet that this browser kept. */
async function shown(screen: Screen, kept: { sheet: unknown; request: HazardRequest }) {
  const context = await visitor(screen);
  await context.addInitScript(
    (text) => localStorage.setItem("fairthrow-calculator-sheet", text),
    JSON.stringify({ ...kept, body: "" }),
  );
  const { page, faults } = await openPage(context, "/calculator");
  const sheet = page.getByRole("article");
  await sheet.waitFor();
  return { page, sheet, faults, done: () => context.close() };
}

/** How many pages of A4 the sheet takes, as Chromium prints it. */
async function pagesOf(page: Page): Promise<number> {
  const pdf = (await page.pdf({ format: "A4" })).toString("latin1");
  return pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

/** What stands there, every blank a plain one. */
const words = async (place: Locator) => ((await place.textContent()) ?? "").replace(/\s+/g, " ");

const section = (page: Page, heading: string) =>
  page.locator("section", { has: page.getByRole("heading", { name: heading, exact: true }) }).last();

/** All that may be declared at once: the longest sheet. */
const everything: HazardRequestInput = {
  ...exampleOf(kindOf("hinged-counterweight")),
  tolerances: { longArm: 0.01, slingLength: 0.01, mass: 0.05 },
  strengths: {
    sling: { ropeRating: 3000, legs: 2, stretch: 0.15 },
    arm: {
      material: { wood: "douglas-fir", grade: "no-2", moisture: 19 },
      sections: {
        pivot: { shape: "laminated", depth: 0.14, width: 0.09, layers: 4, glueFactor: 0.7, clothLayers: 1 },
        tip: { shape: "laminated", depth: 0.08, width: 0.06, layers: 4, glueFactor: 0.7, clothLayers: 1 },
      },
    },
    pivot: 400_000,
    hanger: 20_000,
    frame: { mass: 300, footprint: 3, friction: 0.5 },
  },
  air: { temperature: 293, pressure: 98_000, wind: { speed: 4, gust: 9, direction: 30 } },
  terrain: { below: 2, slope: -2, crossSlope: 1 },
  policy: {
    ground: "hard",
    projectiles: { mass: { min: 3.5, max: 4.5 }, pieceShare: 0.3, substituteDensity: 2500 },
  },
  throws: [{ distance: 150 }, { distance: 152, uncertainty: 0.5 }, { distance: 149 }, { distance: 5000 }],
};

it("answers in the order of the questions, with what decides each number, in the reader's units", async () => {
  const { sheet, request } = await made(exampleOf(kindOf("hinged-counterweight")));
  const { page, faults, done } = await shown("desk", { sheet, request });
  expect(await page.getByRole("article").getByRole("heading", { level: 3 }).allInnerTexts()).toEqual(PARTS);
  for (const [way, heading] of [
    ["forward", "How far forward"],
    ["backward", "How far back"],
  ] as const) {
    const thrown = sheet.worst[way];
    const text = await words(section(page, heading));
    expect(text).toContain("What decides it:");
    expect(text).toContain(`Let go ${thrown.releaseTime?.toFixed(3)} s after the trigger`);
    expect(text).toContain(thrown.hangUp ? "a hang-up" : "not later than the loop should have slipped");
    if (thrown.afterSlack) expect(text).toContain("After the sling had gone slack");
    expect(text).toMatch(/the frame held; the projectile as declared/i);
    // The parameter that matters most stands first in the corner, at its value.
    expect(text).toMatch(/Corner of the tolerances: sling length [\d.]+ m,/);
    expect(text).toMatch(/Stretched by [\d.]+ %/);
  }
  expect(await words(section(page, "How wide"))).toMatch(/What decides it: .*off the bearing/s);
  expect(await words(section(page, "How high"))).toMatch(/What decides it: .*The machine itself reaches/s);
  const breaks = await words(section(page, "What may break"));
  for (const { title } of sheet.faults ?? []) expect(breaks).toContain(title);
  expect(breaks).toContain("no strength declared");
  const sure = await words(section(page, "How sure"));
  expect(sure).toContain(
    `${sheet.search.machines.toLocaleString("en").replace(",", " ")} machines within the tolerances`,
  );
  expect(sure).toContain("What matters most");
  expect(sure).toContain("Ordinary throws never make a zone smaller");
  expect(sure).toContain("No measured throw was given");
  expect(await section(page, "Not modelled").locator("li").count()).toBe(new Set(sheet.notModelled).size);
  expect(await words(page.getByRole("article"))).not.toMatch(/\bsafe\b/i);

  await page.getByRole("button", { name: /US customary/ }).click();
  await expect
    .poll(() => words(section(page, "How far forward")))
    .toMatch(/Corner of the tolerances: sling length [\d' ]+.*(ft|in|["″'])/);
  expect(await words(section(page, "What may break"))).toContain("lbf");
  expect(faults).toEqual([]);
  await done();
});

it.each(MACHINE_KINDS.map(({ kind }) => kind))(
  "reads on a phone and prints on two pages: %s",
  async (kind) => {
    const { page, sheet, faults, done } = await shown("phone", await made(exampleOf(kindOf(kind))));
    for (const units of [/metric/, /US customary/]) {
      await page.getByRole("button", { name: units }).click();
      expect(await pagesOf(page), `${kind}, ${units}`).toBeLessThanOrEqual(2);
    }
    for (const fold of await sheet.locator("details").all()) {
      await fold.evaluate((details: HTMLDetailsElement) => {
        details.open = true;
      });
    }
    expect(await seriousFaults(page), kind).toEqual([]);
    expect(await sidewaysScroll(page), kind).toBe(0);
    expect(faults).toEqual([]);
    await done();
  },
);

it("prints on two pages with everything declared, and shows danger by sign and word", async () => {
  const kept = await made(everything);
  const { page, sheet, done } = await shown("desk", kept);
  expect(await pagesOf(page)).toBeLessThanOrEqual(2);
  // Paper cannot be unfolded.
  await page.emulateMedia({ media: "print" });
  expect(await sheet.getByText("What was taken for granted").isVisible()).toBe(false);
  expect(await sheet.getByText(kept.sheet.assumptions[0] as string).isVisible()).toBe(true);
  await page.emulateMedia({ media: "screen" });
  const text = await words(sheet);
  // 20 kN is far below the pull on this hanger, and 5 km far beyond what the machine can throw.
  expect(kept.sheet.loads?.hanger?.reserve.verdict).toBe("breaks");
  const row = page.getByRole("row", { name: /^Hanger/ }).first();
  expect(await words(row)).toContain("Breaks: do not throw");
  expect(await row.locator("svg").count()).toBe(1);
  expect(kept.sheet.calibration?.hold).toBe(true);
  expect(text).toMatch(/Never: hold/i);
  expect(text).toMatch(/HOLD: beyond the worst throw|4 measured throws/);
  expect(await seriousFaults(page)).toEqual([]);
  await done();
});

it("still shows a sheet of an earlier version, and says what it lacks", async () => {
  const { sheet, request } = await made(exampleOf(kindOf("fixed-counterweight")));
  const bare = ({ frame, load, allowance, corner, ...thrown }: HazardSheet["worst"]["forward"]) => thrown;
  const { faults: _f, loads: _l, sweep: _s, dispersion: _d, calibration: _c, ...rest } = sheet;
  const { machines, varied, ...search } = sheet.search;
  const { forward, backward, firstPass, sensitive } = sheet.worst;
  const old = {
    ...rest,
    search,
    worst: {
      forward: bare(forward),
      backward: bare(backward),
      firstPass: { forward: bare(firstPass.forward), backward: bare(firstPass.backward) },
      sensitive,
    },
  };
  const { page, faults, done } = await shown("phone", { sheet: old, request });
  expect(await page.getByRole("article").getByRole("heading", { level: 3 }).allInnerTexts()).toEqual(PARTS);
  const text = await words(page.getByRole("article"));
  expect(text).toContain("Computed by an earlier version: compute again");
  expect(await words(section(page, "How far forward"))).toContain("The worst throw");
  expect(await words(section(page, "What may break"))).toContain("without failures and loads");
  expect(await words(section(page, "How sure"))).toContain("at the declared numbers alone");
  expect(text).not.toMatch(/undefined|NaN|null/);
  expect(await pagesOf(page)).toBeLessThanOrEqual(2);
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(faults).toEqual([]);
  await done();
});

it("shows how far the server has come while it computes", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/calculator");
  // A mass never asked for before: what the server knows already it answers at once.
  await page.locator("#field-projectile-mass").fill((3 + (Date.now() % 1e6) / 1e7).toFixed(7));
  await page.getByRole("button", { name: "Make the official sheet" }).click();
  const bar = page.getByRole("progressbar", { name: "Official sheet" });
  await bar.waitFor();
  const done = () => bar.evaluate((each: HTMLProgressElement) => each.value);
  await expect.poll(done, { timeout: 20_000, interval: 50 }).toBeGreaterThan(0);
  const before = await done();
  await expect.poll(done, { timeout: 20_000, interval: 50 }).toBeGreaterThan(before);
  await page.getByRole("article").waitFor({ timeout: 45_000 });
  expect(await bar.count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
});

it("takes strengths in the form and shows the reserves that follow, with what was declared", async () => {
  const context = await visitor("desk");
  const { page, faults } = await openPage(context, "/calculator");
  await page.getByText("Strengths: what the parts bear").click();
  await page.locator("#field-strengths-sling").selectOption("tested");
  await page.locator("#field-strengths-sling-breakingStrength").fill("30 kN");
  await page.locator("#field-strengths-arm-material").selectOption("wood");
  await page.locator("#field-strengths-arm-section").selectOption("round");
  await page.locator("#field-strengths-arm-sections-pivot-diameter").fill("60 mm");
  await page.locator("#field-strengths-hanger").fill("1000 lbf");
  await page.getByRole("button", { name: "Make the official sheet" }).click();
  await page.getByRole("article").waitFor({ timeout: 45_000 });
  const loads = page.getByRole("table", { name: /^Loads/ });
  const row = (name: string) => words(loads.getByRole("row", { name: new RegExp(`^${name}`) }).first());
  expect(await row("Sling, throw")).toMatch(/30000 N.*(usual factor of 5)/);
  // A counterweight of 420 kg weighs 4.1 kN: 1000 lbf cannot hold it; nor does a broomstick bend what throws it.
  expect(await row("Hanger")).toContain("Breaks: do not throw");
  expect(await row("Arm in bending, throw")).toMatch(/MPa.*Breaks: do not throw/);
  expect(await row("Pivot")).toContain("no strength declared");
  const declared = page.getByRole("table", { name: "Declared strengths" });
  expect(await words(declared)).toMatch(/Tested as made up.*Timber.*Round.*30000 N.*4448 N/s);
  expect(faults).toEqual([]);
  await context.close();
});

it("prints a machine's page as its sheet alone, on two pages", async () => {
  const { machines } = await overviewOf();
  const path = await contestPath(`/machines/${machines[0]?.id}`);
  const { page, faults, done } = await openAs("safety-officer", "phone", path);
  await page.getByRole("article").waitFor({ timeout: 45_000 });
  expect(await pagesOf(page)).toBeLessThanOrEqual(2);
  await page.emulateMedia({ media: "print" });
  expect(await page.getByText("Hash of the inputs").isVisible()).toBe(true);
  expect(await page.getByText("Signature", { exact: true }).isVisible()).toBe(true);
  expect(await page.getByRole("heading", { name: "Revisions" }).isVisible()).toBe(false);
  expect(await seriousFaults(page)).toEqual([]);
  expect(faults).toEqual([]);
  await done();
});
