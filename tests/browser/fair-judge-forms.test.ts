/**
 * A judge's form for every way to measure: one landing point, measured in each of them at the field of the survey tests,
 * shows the same mark at the same place of the map while it is typed, and is saved as it was typed. And what the thumb
 * does besides: keys for feet and inches, a wrong shot, warnings.
 */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { ShotHistory, ShotInfo } from "@/lib/api/contracts";
import { FIRING_POINT, type FixInput } from "@/lib/survey";
import { Client } from "@/tests/by-http/client";
import { layFair, newJudges } from "@/tests/by-http/fair";
import { at, FIRING, observations, PEGS, SITE, seen } from "@/tests/unit/survey-site";
import { codeOf, newTestKey } from "./fair-visitors";
import { typedFix } from "./field/entries";
import { fieldOf, fillFix, save } from "./judge-form";
import { closeBrowser, openPage, programUrl, seriousFaults, sidewaysScroll, visitor } from "./support";

const SLUG = `forms-${Date.now()}`;
const BASE = `/contests/${SLUG}`;
/** 100.005 m from the firing point, so that a millimetre more or less is the same centimetre. */
const POINT = at(100.005 * Math.sin(Math.PI / 15), 100.005 * Math.cos(Math.PI / 15));
const WAYS = Object.entries(observations(SITE, POINT, undefined, { rise: 3 }));

let page: Page;
let shots: ShotInfo[];
let pegs: Record<string, string>;
let reader: Client;
const free = () => shots.shift() as ShotInfo;

beforeAll(async () => {
  const organiser = new Client(`${programUrl()}/api/v1`);
  await organiser.signIn(codeOf("organiser"));
  const contest = { slug: SLUG, name: "Forms", date: "2031-10-04", ...FIRING, declination: SITE.declination };
  const made = await organiser.ask<{ badge: { code: string } }>("POST", "/contests", contest);
  await organiser.signIn(made.badge.code);
  const laid = await layFair(organiser, SLUG, {
    entrants: WAYS.length + 4,
    rounds: 1,
    place: FIRING,
    bearing: SITE.centreline ?? 0,
    // The field's point lies at 100 m.
    speed: 40,
    pegs: Object.values(PEGS).map(({ uncertainty: _, ...peg }) => peg),
  });
  shots = laid.shots;
  pegs = Object.fromEntries(Object.keys(PEGS).map((letter, index) => [letter, laid.pegIds[index] as string]));
  reader = organiser;
  const [code] = await newJudges(organiser, SLUG, 1);
  const context = await visitor("phone");
  await context.request.post("/api/v1/sign-in", {
    data: { code },
    headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
  });
  ({ page } = await openPage(context, `${BASE}/judge`));
  await page.getByText("Connected:").waitFor();
});
afterAll(closeBrowser);

const preview = () => page.locator("output").textContent();
const choose = async ({ entrantNumber }: ShotInfo) => {
  await page.getByRole("button", { name: new RegExp(`^${entrantNumber} Team`) }).click();
  await page.getByText("What happened?").waitFor();
};
/** A shot that has its entry already. */
const correct = async ({ entrantNumber }: ShotInfo) => {
  await page.getByRole("button", { name: new RegExp(`^${entrantNumber} Team`) }).click();
  await page.getByRole("button", { name: "Correct this entry" }).click();
};
const newestOf = async ({ id }: ShotInfo) => {
  const { fixes } = await reader.ask<ShotHistory>("GET", `${BASE}/shots/${id}`);
  return fixes[0];
};
const saved = () => page.getByRole("region", { name: "What became of the entry" });

it("the field's point is where the tests mean it", () => {
  expect(seen(SITE, FIRING_POINT, POINT).distance).toBeCloseTo(100.005, 3);
});

it.each(WAYS)("%s: mark and map while typing, and the entry as it was typed", async (_, measured) => {
  const shot = free();
  const fix = typedFix(measured as FixInput, pegs);
  await choose(shot);
  await fillFix(page, fix);
  await expect.poll(preview).toMatch(/Mark from firing point 1\s*100\.00 m.*± \d+\.\d\d m \(95 %\)/s);
  // North is up: the point lies 12° to the right of it, wherever the scale puts it.
  const [from, spot] = await page.getByRole("img", { name: /^The landing point as seen/ }).evaluate((map) =>
    ["rect", "circle"].map((name) => {
      const { x, y, width, height } = (map.querySelector(name) as SVGGraphicsElement).getBBox();
      return { x: x + width / 2, y: y + height / 2 };
    }),
  );
  if (!from || !spot) throw new Error("The map shows no landing point.");
  expect((Math.atan2(spot.x - from.x, from.y - spot.y) * 180) / Math.PI).toBeCloseTo(12, 0);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await seriousFaults(page)).toEqual([]);
  await save(page).click();
  await page.getByRole("heading", { name: "Saved" }).waitFor();
  const stored = await newestOf(shot);
  expect(stored?.input).toMatchObject(fix);
  expect(stored?.mark).toBe(100);
});

it("keys for feet and inches: what the thumb writes, takes back and reads as metres", async () => {
  const shot = free();
  await choose(shot);
  await page.getByText("Landed", { exact: true }).tap();
  await page.getByRole("radio", { name: "Bearing and distance", exact: true }).check();
  await fieldOf(page, "bearing").fill("10");
  await fieldOf(page, "distance").tap();
  const keys = page.getByRole("group", { name: "Keys for Distance" });
  for (const key of ["1", "5", "1", "Delete the last", "0", "ft", "6", "in"])
    await keys.getByRole("button", { name: key, exact: true }).tap();
  expect(await fieldOf(page, "distance").inputValue()).toBe("150 ft 6 in");
  // 150.5 international feet of 0.3048 m (NIST SP 811), rounded down to the centimetre.
  await expect.poll(preview).toContain("45.87 m");
  await save(page).tap();
  await page.getByRole("heading", { name: "Saved" }).waitFor();
  expect((await newestOf(shot))?.mark).toBe(45.87);
});

it("a wrong shot is put right with nothing typed again", async () => {
  const [wrong, right] = [free(), free()];
  await choose(wrong);
  await fillFix(page, { outcome: "landed", method: "bearing-distance", bearing: 10, distance: 52.5 });
  await save(page).click();
  await page.getByRole("heading", { name: "Saved" }).waitFor();
  await saved().getByRole("button", { name: "It was another shot" }).click();
  await page.getByRole("heading", { name: "Which shot was it?" }).waitFor();
  await page.getByRole("button", { name: new RegExp(`^${right.entrantNumber} Team`) }).click();
  await saved().getByText(new RegExp(right.entrantName)).first().waitFor();
  await expect.poll(async () => (await newestOf(right))?.mark).toBe(52.5);
  // What the server had stays until the first shot's own entry corrects it, its reason ready.
  await correct(wrong);
  await expect.poll(() => page.locator("#reason").inputValue()).toContain(right.entrantName);
});

it("says before anybody walks away that tapes do not meet, and keeps the entry all the same", async () => {
  const shot = free();
  await choose(shot);
  const short = (letter: string) => ({ from: pegs[letter] as string, distance: 20 });
  await fillFix(page, {
    outcome: "landed",
    method: "two-tapes",
    tapes: [short("a"), short("b")],
    side: "left",
  });
  await page.getByText("Look again; it can be saved all the same").waitFor();
  expect(await page.getByText(/do not meet|too short/).isVisible()).toBe(true);
  expect(await preview()).toContain("No mark comes out of this");
  await save(page).click();
  await page.getByRole("heading", { name: "Saved" }).waitFor();
  expect(await newestOf(shot)).toMatchObject({ outcome: "landed", mark: null });
});
