/**
 * What comes late: from the phone of a badge that was revoked while it had no network, and from a log that was filled in
 * by hand. On a program of its own, since it uses up the shots of a round.
 */
import { rmSync } from "node:fs";
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { ShotInfo } from "@/lib/api/contracts";
import { tidyUp } from "../runner/processes.mjs";
import { type Program, startProgram } from "../runner/program.mjs";
import {
  contestPath,
  historyOf,
  openAs,
  realFaults,
  sendAs,
  shotsOf,
  signInWith,
  standingsOf,
} from "./fair-visitors";
import { firstPage } from "./pdf-lines";
import { closeBrowser, openPage, seriousFaults, sidewaysScroll, visitor } from "./support";

let program: Program;
beforeAll(async () => {
  program = await startProgram();
  process.env.FAIRTHROW_TEST_URL = program.url;
  process.env.FAIRTHROW_TEST_SIGN_INS = JSON.stringify(program.signIns);
});
afterAll(async () => {
  await closeBrowser();
  await program?.stop();
  rmSync(program.folder, { recursive: true, force: true });
  tidyUp();
});

/** Of machines whose permit stood when they threw: those of 1 and 8 were taken back and refused in the demo. */
const openShots = async () =>
  (await shotsOf()).filter(({ fix, entrantNumber }) => fix === null && ![1, 8].includes(entrantNumber));
const markOf = async ({ id, entrantId }: ShotInfo) =>
  (await standingsOf()).overall
    .find((row) => row.entrantId === entrantId)
    ?.marks.find(({ shotId }) => shotId === id);

async function newJudge(organiser: BrowserContext, label: string) {
  return sendAs<{ id: string; code: string }>(organiser, await contestPath("/badges"), {
    role: "judge",
    label,
  });
}

async function enter(page: Page, shot: ShotInfo, distance: string) {
  await page.getByRole("button", { name: new RegExp(`^${shot.entrantNumber} `) }).click();
  await page.getByRole("radio", { name: "Landed" }).check();
  await page.locator("#bearing").fill(String(shot.bearing));
  await page.locator("#distance").fill(distance);
  await page.getByRole("button", { name: /^Save/ }).click();
  await page.getByRole("heading", { name: /^Kept on this phone/ }).waitFor();
}

it("a badge revoked while its phone was offline: what was seen before is confirmed by an official, what came after stays", async () => {
  const { context: organiser, done: organised } = await openAs("organiser", "desk", await contestPath());
  const lost = await newJudge(organiser, "Judge 8");
  const phone = await visitor("phone");
  await signInWith(phone, lost.code);
  const { page, faults } = await openPage(phone, await contestPath("/judge"));
  await page.getByText(/open from this phone/).waitFor();
  const [first, second] = await openShots();
  if (!first || !second) throw new Error("The demo has no open shots.");
  await phone.setOffline(true);
  await enter(page, first, "88.25");
  await sendAs(organiser, `${await contestPath()}/badges/${lost.id}/revoke`, {});
  // Three seconds are the phone's clock's.
  await page.waitForTimeout(4000);
  await enter(page, second, "77.5");
  const before = await markOf(first);

  await phone.setOffline(false);
  const where = page.getByRole("region", { name: "What is saved where" });
  await expect
    .poll(() => where.textContent(), { timeout: 20_000 })
    .toMatch(/1 entry arrived; it waits to be confirmed/);
  await page.getByText("this was seen after that").waitFor();
  expect(await where.textContent()).toContain("1 entry is on this phone and not at the server yet.");
  expect(await seriousFaults(page)).toEqual([]);
  expect(await markOf(first)).toEqual(before);
  expect((await standingsOf()).results.at(-1)?.toConfirm).toEqual([first.id]);

  // The page that the phone opens now says the same, and has no form any more.
  await page.reload();
  await page.getByText("This badge was revoked", { exact: true }).waitFor();
  await expect.poll(() => where.getAttribute("data-waiting")).toBe("1");
  expect(await where.textContent()).toMatch(/1 entry arrived; it waits to be confirmed/);
  expect(await page.getByText("this was seen after that").isVisible()).toBe(true);
  expect(await page.getByText("What happened?").count()).toBe(0);
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);

  const standings = await openAs(null, "phone", await contestPath("/standings"));
  await standings.page.getByText("an entry of an ended badge does not count").waitFor();
  expect(await seriousFaults(standings.page)).toEqual([]);

  const official = await openAs("safety-officer", "phone", await contestPath("/organise/rulings"));
  const decision = official.page.getByRole("form", {
    name: new RegExp(`^Decide about .*${first.entrantName}`),
  });
  await official.page.getByText(/By Judge 8, whose badge was revoked at/).waitFor();
  await decision.getByLabel("Reason of the decision").fill("The east post saw it too");
  await decision.getByRole("button").click();
  await official.page
    .getByText(/decision: /)
    .first()
    .waitFor();
  expect(await seriousFaults(official.page)).toEqual([]);
  expect(await sidewaysScroll(official.page)).toBe(0);
  await decision.getByLabel("Decision", { exact: true }).selectOption("confirmed");
  await decision.getByRole("button").click();
  await official.page.getByText("Recorded: confirmed.").waitFor();
  expect(await markOf(first)).toMatchObject({ mark: 88.25, counts: true });
  await expect.poll(() => standings.page.getByRole("main").textContent()).toContain("88.25 m");
  await page.getByText("Confirmed by Safety officer: The east post saw it too").waitFor();

  await official.page.goto(await contestPath(`/shots/${first.id}`));
  const entry = official.page.locator("main ol > li").first();
  expect(await entry.textContent()).toMatch(
    /88\.25 m.*counts.*by Judge 8.*Its badge was revoked at.*Confirmed.*The east post saw it too \(Safety officer/s,
  );
  expect(await seriousFaults(official.page)).toEqual([]);

  // Its judge has a new badge, and stands for what was left on the phone.
  await signInWith(phone, (await newJudge(organiser, "Judge 9")).code);
  await page.goto(await contestPath("/judge"));
  await page.getByRole("button", { name: "Enter it with this badge" }).click();
  await expect.poll(() => where.getAttribute("data-waiting"), { timeout: 20_000 }).toBe("0");
  expect((await historyOf(second.id)).fixes).toMatchObject([{ mark: 77.5, by: "Judge 9", held: null }]);
  expect(realFaults(faults)).toEqual([]);
  await Promise.all([phone.close(), standings.done(), official.done(), organised()]);
});

describe("a landing log on paper", () => {
  it.each([
    ["A4", 297],
    ["Letter", 279.4],
  ] as const)("is one sheet of %s with the form's columns in the form's order", async (format, width) => {
    const { page, done } = await openAs("judge", "desk", await contestPath("/landing-log"));
    const heads = await page.getByRole("columnheader").allTextContents();
    expect(heads).toEqual([
      "Shot",
      "What happened",
      "Bearing",
      "Distance",
      "Measured from",
      "Counted from",
      "Time seen",
      "Witness (post)",
      "Typed in",
    ]);
    const sheet = firstPage(await page.pdf({ format, landscape: true }));
    expect(Math.abs(sheet.width - width)).toBeLessThan(0.5);
    expect(sheet.pages).toBe(1);

    await page.getByRole("link", { name: "Type in a log that is filled in" }).click();
    const line = page.locator("fieldset:not([data-entered])").first();
    await line.waitFor();
    const labels = await line.locator("label").allTextContents();
    expect(labels.map((label) => label.replace(/ \(optional\)$/, ""))).toEqual(heads.slice(1, -1));
    await done();
  });

  it("is typed in line by line without a network; a wrong line says what, the others arrive with time and witness", async () => {
    const { page, context, faults, done } = await openAs("judge", "phone", await contestPath("/judge"));
    await page.getByText(/open from this phone/).waitFor();
    const [one, two, three] = await openShots();
    if (!one || !two || !three) throw new Error("The demo has no open shots.");
    await context.setOffline(true);
    await page.goto(await contestPath(`/judge/paper?round=${one.round}`));
    const line = (shot: ShotInfo) => page.getByRole("group", { name: new RegExp(`^${shot.position}\\. `) });
    const fill = async (shot: ShotInfo, fields: Record<string, string>) => {
      for (const [label, text] of Object.entries(fields))
        await line(shot).getByRole("textbox", { name: label }).fill(text);
    };
    await page.getByLabel("of lines that name none").fill("West post");
    await fill(one, { Bearing: "91", Distance: "55.5", "Time seen": "1042" });
    await fill(two, { Bearing: "91", Distance: "far", "Time seen": "25:10", "Witness (post)": "East post" });
    await line(three).getByLabel("What happened").selectOption("foul");
    await fill(three, { "Time seen": "10:50:30", "Witness (post)": "East post" });

    const save = page.getByRole("button", { name: "Save the lines that are filled in" });
    await page.getByLabel("Day").fill("");
    await save.click();
    await page.getByText("Day: choose the day").waitFor();
    const day = (await page.getByLabel("Day").getAttribute("max")) ?? "";
    const seen = new Date(new Date(`${day}T10:42:00`).getTime() - 86_400_000);
    await page.getByLabel("Day").fill(seen.toISOString().slice(0, 10));
    await save.click();
    await page.getByText("2 lines saved. 1 line to put right.").waitFor();
    const words = await line(two).textContent();
    expect(words).toContain("Time seen: write it as 10:42");
    expect(words).toContain("Distance: ");
    expect(await line(two).getByRole("textbox", { name: "Distance" }).inputValue()).toBe("far");
    expect(await line(one).textContent()).toContain("On this phone, not at the server yet: 55.50 m");
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    // What is typed outlives the page.
    await page.reload();
    await expect.poll(() => line(two).getByRole("textbox", { name: "Distance" }).inputValue()).toBe("far");
    await context.setOffline(false);
    const where = page.getByRole("region", { name: "What is saved where" });
    await expect.poll(() => where.getAttribute("data-waiting"), { timeout: 20_000 }).toBe("0");
    await fill(two, { Distance: "56.25", "Time seen": "2:05 pm" });
    await save.click();
    await page.getByText("1 line saved.").waitFor();
    await line(two)
      .getByText(/Entered: 56\.25 m.* witness East post/)
      .waitFor();

    const here = (clock: string) => new Date(`${seen.toISOString().slice(0, 10)}T${clock}`).toISOString();
    for (const [shot, fix] of [
      [one, { mark: 55.5, witness: "West post", observedAt: here("10:42:00") }],
      [two, { mark: 56.25, witness: "East post", observedAt: here("14:05:00") }],
      [three, { outcome: "foul", witness: "East post", observedAt: here("10:50:30") }],
    ] as const)
      expect((await historyOf(shot.id)).fixes).toMatchObject([fix]);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });
});
