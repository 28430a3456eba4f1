/** A machine on the bench: copied, changed, compared, kept; then handed on by link, file, paper and into a contest. */
import { readFileSync } from "node:fs";
import type { BrowserContext } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { KINDS } from "@/app/_ui/machine-form/form/fields";
import { formToHash, linkTo } from "@/app/_ui/machine-form/form/link";
import { startingForm } from "@/app/_ui/machine-form/form/state";
import { UNITS_COOKIE } from "@/app/_ui/units-cookie";
import { benchToText } from "@/app/workbench/bench/bench";
import { machineKind } from "@/lib/throw";
import { fullyDeclared } from "../unit/fully-declared";
import { newTestKey, signIn } from "./fair-visitors";
import { firstPage } from "./pdf-lines";
import { closeBrowser, openPage, programUrl, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

it("a revision is copied and changed on a phone, stands beside the first, and a reload keeps both", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/workbench");
  // The menus leave most of a phone to the page.
  expect((await page.locator("h1").boundingBox())?.y).toBeLessThan(220);
  await page.locator("#bench-name").fill("Loud Uncle");
  await page.getByRole("button", { name: "Copy into a new revision" }).click();
  await page.locator("#revision-name").fill("Longer sling");
  const sling = page.getByLabel("Sling length", { exact: false }).first();
  await sling.fill("15 ft");
  await page.getByRole("rowheader", { name: "Throw as meant" }).waitFor();
  const compared = page.getByRole("table", { name: /What the revisions throw/ });
  await expect
    .poll(() => compared.getByRole("row", { name: /Sling length/ }).textContent(), { timeout: 10_000 })
    .toMatch(/4\.57/);
  await expect
    .poll(() => compared.getByRole("row", { name: /Throw as meant/ }).textContent(), { timeout: 10_000 })
    .toMatch(/\d m.*\d m/);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await seriousFaults(page)).toEqual([]);
  await page.reload();
  await expect.poll(() => page.locator("#bench-name").inputValue(), { timeout: 10_000 }).toBe("Loud Uncle");
  expect(await page.locator("#bench-revision option").allTextContents()).toEqual([
    "1. As built",
    "2. Longer sling",
  ]);
  // Other pages are of the same one, and let another be chosen.
  await page.getByRole("link", { name: "Film", exact: true }).click();
  await page.getByText("Loud Uncle, revision “Longer sling”").waitFor();
  await page.locator("#page-revision").selectOption({ label: "1. As built" });
  await page.getByText("Loud Uncle, revision “As built”").waitFor();
  expect(faults).toEqual([]);
  await context.close();
});

it("a machine goes on as a file and as a link; what is broken changes nothing, and what came in is undone", async () => {
  const context = await visitor("desk", { acceptDownloads: true });
  const { page } = await openPage(context, "/workbench");
  await page.locator("#bench-name").fill("Windfall");
  await page.locator("#revision-name").fill("For the fair");
  await page.getByRole("link", { name: "Share", exact: true }).click();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the machine as a file" }).click();
  const saved = await download;
  expect(saved.suggestedFilename()).toBe("windfall.fairthrow.json");
  const text = readFileSync(await saved.path(), "utf8");
  expect(JSON.parse(text)).toMatchObject({
    format: "fairthrow-machine",
    version: 2,
    name: "Windfall",
    stops: [],
  });
  expect(await seriousFaults(page)).toEqual([]);
  await context.close();

  const other = await visitor("phone");
  const { page: phone } = await openPage(other, "/workbench/share");
  const give = (content: string) =>
    phone.locator('input[type="file"]').setInputFiles({
      name: "given.json",
      mimeType: "application/json",
      buffer: Buffer.from(content),
    });
  const names = () =>
    phone.evaluate(() =>
      JSON.parse(localStorage.getItem("fairthrow-bench") ?? "{}").revisions?.map(
        ({ name }: { name: string }) => name,
      ),
    );
  await give(text.slice(0, 200));
  await phone.getByText("The file is cut off").waitFor();
  // Nothing changes before it is said; what is not understood is named.
  await give(text.replace('"longArm"', '"wings": 2, "longArm"'));
  await phone.getByText("machine.wings: not known to this program; left out.").waitFor();
  expect(await names()).toBeUndefined();
  expect(await sidewaysScroll(phone)).toBe(0);
  expect(await seriousFaults(phone)).toEqual([]);
  await phone.getByRole("button", { name: "Add beside what is here" }).click();
  await expect.poll(names).toEqual(["As built", "For the fair"]);
  await phone.getByRole("button", { name: "Undo it" }).click();
  await expect.poll(names).toEqual(["As built"]);
  await give(text);
  await phone.getByText("All of it is understood.").waitFor();
  await phone.getByRole("button", { name: "Replace what is here" }).click();
  await expect.poll(names).toEqual(["For the fair"]);

  // A link that chat programs cut is refused whole, one of old is opened unchecked.
  const link = `#${formToHash(startingForm("metric", "measured"))}`;
  await phone.goto(`/workbench${link.slice(0, -20)}`);
  await phone.reload();
  await phone.getByText("The link was not opened").waitFor();
  expect(await names()).toEqual(["For the fair"]);
  expect(await seriousFaults(phone)).toEqual([]);
  await phone.getByRole("button", { name: "Close this notice" }).click();
  await phone.getByText("The link was not opened").waitFor({ state: "detached" });
  await phone.goto("/workbench/film?t=0.4&machine=behind");
  await phone.getByText("It is cut off before its “#”").waitFor();
  await phone.goto("/workbench#kind=measured&machine.releaseSpeed=31&machine.launchAngle=40");
  await phone.getByText("Opened from a link that carries no check").waitFor();
  await expect
    .poll(() => phone.locator("#bench-revision option").allTextContents(), { timeout: 10_000 })
    .toEqual(["1. For the fair", "2. From a link"]);
  await other.close();
});

it("whatever is declared, its paper is two pages with what it was reckoned for", async () => {
  const context = await visitor("desk");
  // The longest texts on the shortest paper.
  const system = "us";
  await context.addCookies([{ name: UNITS_COOKIE, value: system, url: programUrl() }]);
  const { page } = await openPage(context, "/workbench/share");
  await page.emulateMedia({ media: "print" });
  for (const kind of KINDS) {
    const revision = {
      id: "1",
      name: "Deeper arm",
      note: "It broke at the pivot. ".repeat(21),
      form: fullyDeclared(system, kind),
    };
    const text = benchToText({
      name: "The Loud Uncle of the Upper Meadow, twice as long",
      revisions: [revision],
      chosen: "1",
    });
    await page.evaluate((bench) => {
      localStorage.setItem("fairthrow-bench", bench);
      // As another tab would be heard.
      dispatchEvent(new StorageEvent("storage", { key: "fairthrow-bench" }));
    }, text);
    const second = page.getByRole("region", { name: "Second page" });
    await second.getByText(machineKind(kind).title, { exact: false }).first().waitFor();
    await expect
      .poll(() => second.textContent(), { timeout: 15_000 })
      .toContain("Throws at the declared numbers");
    for (const words of ["24.6 mph", "Printed on", "Deeper arm", "the safety officer decides"])
      expect(await second.textContent(), kind).toContain(words);
    const { pages, lines } = firstPage(await page.pdf({ format: "Letter", printBackground: true }));
    expect([kind, pages]).toEqual([kind, 2]);
    // Drawing and rows stand on the first page: one that holds its heading alone has hardly a line.
    expect(lines.length, kind).toBeGreaterThan(100);
  }
  expect(firstPage(await page.pdf({ format: "A4", printBackground: true })).pages).toBe(2);
  await context.close();
});

it("a team declares the revision on its bench in its contest with one tap", async () => {
  const { slug, machineId, teamCode } = await ownContest();
  const context = await visitor("phone");
  await signInWith(context, teamCode);
  const { page } = await openPage(context, "/workbench");
  await page.locator("#revision-name").fill("Shorter arm");
  await page.getByRole("link", { name: "Share", exact: true }).click();
  await page.getByRole("button", { name: "Declare “Shorter arm”" }).click();
  await page.getByText("Declared. Its official hazard sheet").waitFor();
  const { machine } = await page.evaluate(
    async (path) => (await fetch(path)).json(),
    `/api/v1/contests/${slug}/machines/${machineId}`,
  );
  expect(machine).toMatchObject({ kind: "hinged-counterweight", revision: 1 });

  // STOP that came with a machine stands above the pages, goes on into the contest, and ends by a written answer.
  const stop = "hold~forward~610~215.4~2031-05-03T14:20~5~a1~Loud Uncle, As built";
  await page.goto(linkTo("/workbench", formToHash(startingForm("metric", "measured"), [stop])));
  const came = page.getByText(/^Throw 5 of “Loud Uncle, As built”: 610 m ahead, beyond 215 m/);
  await came.first().waitFor();
  await expect.poll(() => page.url()).toBe(`${programUrl()}/workbench`);
  await page.getByRole("link", { name: "Share", exact: true }).click();
  await page.getByRole("button", { name: "Declare “From a link”, with its STOP" }).click();
  await page.getByText("Declared. Its official hazard sheet").waitFor();
  await page.getByRole("link", { name: "look at it there" }).click();
  await page.getByText("throw before it is known why: STOP stood when revision 2 was declared").waitFor();
  await page.goto("/workbench/trials");
  await page.getByRole("link", { name: "Write down why it no longer stands" }).click();
  await page.getByLabel("What was found, and what was done").fill("it rolled down the bank: paced anew");
  expect(await seriousFaults(page)).toEqual([]);
  await page.getByRole("button", { name: /STOP no longer stands/ }).click();
  await page.getByText(/Answered here on .*: it rolled down the bank/).waitFor();
  await page.getByText("STOP came with the machine").waitFor({ state: "detached" });
  await context.close();
});

const headers = () => ({ "Idempotency-Key": newTestKey(), Origin: programUrl() });

async function signInWith(context: BrowserContext, code: string): Promise<void> {
  const answer = await context.request.post("/api/v1/sign-in", { data: { code }, headers: headers() });
  if (!answer.ok()) throw new Error(await answer.text());
}

/** A contest of this test's own, so that no other finds a changed machine in the demo. */
async function ownContest() {
  const context = await visitor("desk");
  await signIn(context, "organiser");
  const post = async (path: string, data: object) => {
    const answer = await context.request.post(`/api/v1${path}`, { data, headers: headers() });
    if (!answer.ok()) throw new Error(await answer.text());
    return answer.json();
  };
  const slug = `yard-${Date.now().toString(36)}`;
  const { badge } = await post("/contests", {
    slug,
    name: "Yard trial",
    date: "2031-05-03",
    latitude: 44.2,
    longitude: -31.6,
  });
  await signInWith(context, badge.code);
  const base = `/contests/${slug}`;
  const division = await post(`${base}/divisions`, { name: "Open" });
  const entrant = await post(`${base}/entrants`, { divisionId: division.id, name: "Windfall Apprentices" });
  const machine = await post(`${base}/machines`, { entrantId: entrant.id, name: "Windfall" });
  const team = await post(`${base}/badges`, { role: "team", label: "Team", entrantId: entrant.id });
  await context.close();
  return { slug, machineId: machine.id as string, teamCode: team.code as string };
}
