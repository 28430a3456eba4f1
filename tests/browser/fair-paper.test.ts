/** What goes out on paper: the range plan to scale, consents, the safety plan, and safety files that are frozen. */
import { afterAll, describe, expect, it } from "vitest";
import { PAPER_NAMES, PAPERS } from "@/app/contests/[contest]/range-plan/plan-scale";
import { groundInverse } from "@/lib/earth";
import { contestPath, openAs, overviewOf, realFaults, zonesOf } from "./fair-visitors";
import { firstPage, type Line } from "./pdf-lines";
import { closeBrowser, SCREEN_NAMES, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

const TURNS = ["portrait", "landscape"] as const;

/** A straight feature of two points, as the ground has it: metres east and north. */
async function measuredLine() {
  const { features, height } = await overviewOf();
  const line = features.find(({ kind, retired }) => kind === "overhead-line" && !retired);
  if (line?.geometry.type !== "LineString") throw new Error("The demo has no overhead line.");
  const [from, to] = line.geometry.coordinates.map(([longitude, latitude]) => ({ longitude, latitude }));
  if (!from || !to) throw new Error("The overhead line has no two points.");
  const { distance, bearing } = groundInverse(from, to, height);
  const angle = (bearing * Math.PI) / 180;
  return { east: distance * Math.sin(angle), north: distance * Math.cos(angle), distance };
}

describe("the head of the scorebook", () => {
  it("is printed on one sheet as the chain has it, and an entry is found by a word of it", async () => {
    const { page, done } = await openAs(null, "phone", await contestPath("/scorebook"));
    await page.getByLabel("Search entries").fill("landing corrected");
    await page.getByRole("button", { name: "Search", exact: true }).click();
    await page.getByText(/entr(y has|ies have) “landing corrected” in/).waitFor();
    const acts = await page.getByRole("main").locator("ol > li").allInnerTexts();
    expect(acts.length).toBeGreaterThan(0);
    for (const act of acts) expect(act).toMatch(/Landing point.* corrected/s);
    await page.getByRole("link", { name: "print it" }).click();
    await page.getByRole("heading", { name: "Head of the scorebook" }).waitFor();
    const { sequence, head } = await page.evaluate(
      async (path) => {
        const answer = await fetch(path);
        return (await answer.json()) as { sequence: number; head: string };
      },
      `/api/v1${await contestPath("/scorebook?limit=1")}`,
    );
    const words = (await page.getByRole("main").textContent()) ?? "";
    expect(words).toContain(`Entry ${sequence}`);
    expect(words.replace(/\s/g, "")).toContain(head);
    expect(words).toContain(`--head ${sequence}:${head.slice(0, 16)}`);
    expect(firstPage(await page.pdf()).pages).toBe(1);
    // Of a round that is over: the entry that its results rest on, whatever was entered since.
    await page.getByRole("link", { name: "Round 1" }).click();
    await page.getByRole("heading", { name: "Head of the scorebook, round 1" }).waitFor();
    const line = (await page.locator("code").first().textContent()) ?? "";
    const [, entry = ""] = /^Round 1, entry (\d+): [0-9a-f ]{79}$/.exec(line) ?? [];
    expect(Number(entry)).toBeLessThan(sequence);
    expect(await page.getByRole("table").getByRole("rowheader").allTextContents()).toEqual([
      "Judge",
      "Safety officer",
      "Somebody of a team",
    ]);
    await done();
  });
});

describe("the range plan on paper", () => {
  it.each(PAPER_NAMES.flatMap((paper) => TURNS.map((turn) => [paper, turn] as const)))(
    "puts ground on %s, %s, to its scale within half a percent",
    async (paper, turn) => {
      const line = await measuredLine();
      const { page, done } = await openAs(
        null,
        "desk",
        await contestPath(`/range-plan?paper=${paper}&turn=${turn}`),
      );
      const scale = Number(await page.locator("svg[data-scale]").getAttribute("data-scale"));
      expect(await page.getByText(`1:${scale} on ${PAPERS[paper].title}, ${turn}`).count()).toBe(1);
      const sheet = firstPage(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
      const sides = [PAPERS[paper].width, PAPERS[paper].height].sort((a, b) => a - b);
      const [short = 0, long = 0] = [sheet.width, sheet.height].sort((a, b) => a - b);
      expect(Math.abs(short - (sides[0] ?? 0))).toBeLessThan(0.5);
      expect(Math.abs(long - (sides[1] ?? 0))).toBeLessThan(0.5);
      expect(sheet.width > sheet.height).toBe(turn === "landscape");

      const east = (line.east * 1000) / scale;
      const north = (line.north * 1000) / scale;
      const slack = (line.distance * 1000 * 0.005) / scale;
      const off = ({ from, to }: Line) => Math.hypot(to[0] - from[0] - east, to[1] - from[1] - north);
      expect(Math.min(...sheet.lines.map(off))).toBeLessThan(slack);
      await done();
    },
  );

  it("is drawn by the reader's scale and units, and says when the range does not fit", async () => {
    const { page, faults, done } = await openAs(null, "desk", await contestPath("/range-plan"));
    const form = page.getByRole("form", { name: "How the plan is drawn" });
    await form.getByLabel("Scale").fill("1:500");
    await form.getByRole("button", { name: "Draw it so" }).click();
    await page.getByText("Not all of the range is on this sheet at 1:500").waitFor();
    await form.getByLabel("Scale").fill("half");
    await form.getByRole("button", { name: "Draw it so" }).click();
    await page.getByText("Scale: give it as 1:1250").waitFor();
    await form.getByLabel("Scale").fill("");
    await form.getByLabel("Zones").selectOption("together");
    await form.getByRole("button", { name: "Draw it so" }).click();
    await page.locator('[data-zone="all"]').waitFor();
    // The sheet is there before the page answers to the thumb.
    const us = page.getByRole("button", { name: /US customary/ });
    await expect
      .poll(async () => {
        await us.click();
        return us.getAttribute("aria-pressed");
      })
      .toBe("true");
    await page
      .getByText(/1 in = \d+ ft \(1:\d+\) on/)
      .first()
      .waitFor();
    expect(realFaults(faults)).toEqual([]);
    await done();
  });
});

describe.each(SCREEN_NAMES)("paper on the screen, %s", (screen) => {
  it("says in tables what the plan draws", async () => {
    const { features } = await zonesOf();
    const { page, faults, done } = await openAs(null, screen, await contestPath("/range-plan"));
    const distances = page.getByRole("table", { name: "Keep-out distances" });
    for (const { properties } of features) {
      const row = await distances.getByRole("row").filter({ hasText: properties.machineName }).textContent();
      // Rounded up: never a metre less than the zone reaches.
      const forward = (properties.exclusion?.forward ?? 0) + properties.accuracy;
      expect(row).toContain(`${Math.ceil(forward)} m`);
    }
    expect(await page.locator("[data-firing-point]").count()).toBe((await overviewOf()).firingPoints.length);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });

  it("leads from a consent and the plan to a frozen file, which tells what changed since", async () => {
    // Another one in every run: the contest keeps what an earlier run entered.
    const party = `Meadow Trust ${process.pid}, ${screen}`;
    const { page, faults, done } = await openAs(
      "safety-officer",
      screen,
      await contestPath("/organise/consents"),
    );
    const entry = page.getByRole("form", { name: "Enter a consent" });
    await entry.getByLabel("Who gives it").fill(party);
    await entry.getByLabel("Given on").fill("2026-09-01");
    await entry.getByLabel("Last day on which it holds").fill("2026-08-01");
    await entry.getByRole("button").click();
    await page.getByText("It cannot end on 2026-08-01").first().waitFor();
    expect(await entry.getByLabel("Who gives it").inputValue()).toBe(party);
    await entry.getByLabel("Last day on which it holds").fill("2030-08-01");
    await entry.getByRole("button").click();
    await page.getByRole("rowheader", { name: party }).waitFor();
    expect(await page.getByRole("list", { name: "What is missing" }).textContent()).not.toContain(
      "landowner",
    );
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    await page.goto(await contestPath("/organise/safety-plan"));
    const plan = page.getByRole("form", { name: "The safety plan" });
    const call = `Dial 555-${screen}`;
    await plan.getByLabel("Emergency call number").fill(call);
    await plan.getByLabel("Rendezvous for the ambulance: position").fill("somewhere");
    await plan.getByRole("button").click();
    await page.getByText("Rendezvous for the ambulance: position: give latitude").waitFor();
    const { latitude, longitude } = await overviewOf();
    await plan.getByLabel("Rendezvous for the ambulance: position").fill(`${latitude}, ${longitude}`);
    await plan.getByLabel(/Who is briefed/).fill("Judges; before the gates open\nCrews");
    await plan.getByRole("button").click();
    await page.getByText("The safety plan is saved.").waitFor();
    await expect.poll(() => plan.getByLabel("Emergency call number").inputValue()).toBe(call);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    await page.goto(await contestPath("/safety-file"));
    await page.getByRole("form", { name: "Freeze a safety file" }).getByLabel("For whom").fill(screen);
    await page.getByRole("button", { name: "Freeze the safety file" }).click();
    await page.locator(".notice-done").getByRole("link").click();
    await page.waitForURL("**/safety-file/*");
    const missing = page.getByRole("region", { name: "What is missing" });
    expect(await missing.textContent()).toMatch(/no first-aid post.*Nobody has signed/s);
    expect(await page.getByText(call).count()).toBe(1);
    expect(await page.getByText(party).count()).toBe(1);
    await page.getByText("Nothing that this file rests on has been changed").waitFor();
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    const frozen = page.url();

    await page.goto(await contestPath("/organise/consents"));
    await page.getByText(`Change or retire: ${party}`).click();
    await page
      .getByRole("form", { name: `Retire the consent of ${party}` })
      .getByRole("button")
      .click();
    await page.getByRole("form", { name: `Restore the consent of ${party}` }).waitFor();
    await page.goto(frozen);
    expect(await page.getByRole("region", { name: "Changed since" }).textContent()).toMatch(
      /no longer says.*Consent changed.*Safety officer/s,
    );
    expect(await page.getByText(party).count()).toBe(1);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });
});

it("cuts no line of a frozen file on A4 and Letter, and keeps it from who is no official", async () => {
  const { page, done } = await openAs("judge", "desk", await contestPath("/safety-file"));
  await page
    .getByRole("link", { name: /^Safety file \d+$/ })
    .first()
    .click();
  await page.waitForURL("**/safety-file/*");
  await page.emulateMedia({ media: "print" });
  // What is left inside the page's margins of 14 mm, in CSS pixels.
  for (const { width, height } of [PAPERS.a4, PAPERS.letter]) {
    const inside = { width: width - 28, height: height - 28 };
    const pixels = (millimetres: number) => (millimetres * 96) / 25.4;
    await page.setViewportSize({ width: Math.floor(pixels(inside.width)), height: 900 });
    const over = await page.evaluate(() =>
      [...document.querySelectorAll("main p, main li, main table, main svg, main dl")]
        .filter((element) => element.getBoundingClientRect().right > window.innerWidth + 1)
        .map((element) => element.textContent?.slice(0, 60)),
    );
    expect(over).toEqual([]);
    const sheet = page.getByRole("region", { name: "Range plan to scale" });
    const section = await sheet.locator("xpath=ancestor::section").boundingBox();
    expect(section?.height).toBeGreaterThan(pixels(200));
    expect(section?.height).toBeLessThan(pixels(inside.height));
  }
  await done();
  const team = await openAs("team", "desk", await contestPath());
  expect((await team.page.goto(await contestPath("/safety-file")))?.status()).toBe(403);
  await team.done();
});
