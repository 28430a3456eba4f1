/**
 * A whole round by four people at once: the organiser and the safety officer at desks, a judge who stands at the post, keeps
 * the tally and measures, and the crew on phones. Inspected and permitted there, a hold by the judge, a misfire with its
 * waiting time, and a phone that loses the server.
 */
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { Client } from "../by-http/client";
import { layFair } from "../by-http/fair";
import { permitAll } from "../by-http/permit";
import { codeOf, realFaults, signInWith } from "./fair-visitors";
import {
  closeBrowser,
  openPage,
  programUrl,
  type Screen,
  seriousFaults,
  sidewaysScroll,
  visitor,
} from "./support";

const api = `${programUrl().replace(/\/$/, "")}/api/v1`;
const slug = `range-${Date.now()}`;
const base = `/contests/${slug}`;
const MIDDLE = { latitude: 44.2, longitude: -31.6 };

interface Person {
  context: BrowserContext;
  page: Page;
  faults: string[];
}
let organiser: Person;
let officer: Person;
/** One phone with a page for each of its three places. */
let post: Person;
let line: Person;
let crew: Person;
let people: Person[];
let machineIds: string[];
let secondCrew: string;

beforeAll(async () => {
  const laying = new Client(api);
  await laying.signIn(codeOf("organiser"));
  const contest = { slug, name: "A fair of four", date: "2031-10-04", ...MIDDLE, rounds: 1 };
  const { badge } = await laying.ask<{ badge: { code: string } }>("POST", "/contests", contest);
  await laying.signIn(badge.code);
  const { shots } = await layFair(laying, slug, { entrants: 2, rounds: 1, place: MIDDLE, bearing: 90 });
  machineIds = shots.map(({ machineId }) => machineId);
  const geometry = { type: "Point", coordinates: [MIDDLE.longitude - 0.004, MIDDLE.latitude + 0.002] };
  await laying.ask("POST", `${base}/features`, { kind: "post", name: "Post north", geometry });
  const make = async (role: string, label: string, entrantId?: string) => {
    const who = { role, label, ...(entrantId && { entrantId }) };
    return (await laying.ask<{ code: string }>("POST", `${base}/badges`, who)).code;
  };
  const safety = new Client(api);
  await safety.signIn(await make("safety-officer", "Safety officer"));
  // The second machine was seen to before; the first is inspected here.
  await permitAll(safety, base, [machineIds[1] as string]);
  const times = { silence: 6, clearLasts: 600, misfireWait: 60 };
  await safety.ask("PUT", `${base}/range/times`, { times, reason: "Quick phones" });
  const open = async (screen: Screen, code: string, path: string): Promise<Person> => {
    const context = await visitor(screen);
    await signInWith(context, code);
    return { context, ...(await openPage(context, `${base}/${path}`)) };
  };
  organiser = await open("desk", badge.code, "organise/rounds");
  const atDesk = await visitor("desk");
  await atDesk.addCookies([{ ...safety.session, url: programUrl() }]);
  officer = { context: atDesk, ...(await openPage(atDesk, `${base}/clearance/${machineIds[0]}/inspect`)) };
  post = await open("phone", await make("judge", "Judge"), "post");
  line = { context: post.context, ...(await openPage(post.context, `${base}/tally`)) };
  crew = await open("phone", await make("team", "Team 1", shots[0]?.entrantId), "order");
  secondCrew = await make("team", "Team 2", shots[1]?.entrantId);
  people = [organiser, officer, post, line, crew];
  await everywhere("cold");
}, 60_000);
afterAll(closeBrowser);

/** Until every page shows it. */
const everywhere = (mode: string) =>
  Promise.all(people.map(({ page }) => page.locator(`[data-range="${mode}"]`).waitFor({ timeout: 10_000 })));
const press = ({ page }: Person, name: string | RegExp) =>
  page.getByRole("button", { name, exact: true }).click();
const sees = ({ page }: Person, text: string | RegExp) =>
  page.getByText(text).first().waitFor({ timeout: 10_000 });
const ready = ({ page }: Person, form: string) =>
  page.waitForFunction((label) => {
    const found = document.querySelector(`form[aria-label='${label}']`);
    return found && Object.keys(found).some((key) => key.startsWith("__reactProps"));
  }, form);

async function everybodyCanUse(): Promise<void> {
  for (const { page } of people) {
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
  }
}

async function readyToFire(machine: string): Promise<void> {
  await press(crew, "Raising");
  await sees(crew, `${machine} is raising`);
  await everywhere("live");
  await press(crew, "Armed");
  await sees(crew, `${machine} is armed`);
  await press(post, "Clear");
  await sees(post, "✓ Post north says CLEAR");
  await officer.page.getByRole("checkbox", { name: /Firing point 1/ }).click();
  await sees(officer, "Nothing stands in the way");
  await press(officer, `Hot for ${machine}`);
  await everywhere("hot");
}

async function inspectAndPermit(): Promise<void> {
  const { page } = officer;
  await ready(officer, "Write the inspection down");
  const lines = await page.locator("ol h3 button").count();
  for (let number = 0; number < lines; number++) {
    if (number > 0) await page.getByRole("button", { name: /^Next: / }).click();
    await page.getByText("Meets it", { exact: true }).first().click();
  }
  await sees(officer, `Revision 1: ${lines} of ${lines} lines done`);
  await page.getByRole("radiogroup", { name: "The machine" }).getByText("Meets it", { exact: true }).click();
  await press(officer, "Write this inspection down");
  await sees(officer, "No firing permit has been signed for it.");
  await page.goto(`${base}/clearance/${machineIds[0]}`);
  await ready(officer, "Sign a firing permit");
  await press(officer, "Sign this permit");
  await sees(officer, /Firing permit \d+ stands/);
  await page.goto(`${base}/range`);
}

it("four people take a round from its order to the standings", async () => {
  await press(organiser, "Show what it would come to");
  await press(organiser, "Make this the order");
  await sees(crew, "You are up.");
  await inspectAndPermit();
  await crew.page.goto(`${base}/crew`);
  await post.page.getByLabel("I stand at").selectOption({ label: "Post north" });
  await sees(post, "✗ Post north counts as NOT CLEAR");
  await line.page.getByLabel("Name, or number of the tag", { exact: true }).fill("17");
  await press(line, "Tag out");
  await sees(line, "✗ One is out");
  await press(crew, "Raising");
  await sees(crew, "nobody raises until everybody is tagged in at the line");
  await officer.page.getByRole("combobox", { name: "Machine" }).selectOption(machineIds[0] as string);
  await sees(officer, "One tag is out: tag everybody in at the line.");
  await sees(officer, "Post north has not said clear: call the post.");
  await everybodyCanUse();
  await press(line, /^In ?: Tag 17$/);
  await sees(line, "✓ Nobody is out");
  await readyToFire("Machine 1");
  await sees(line, "Nobody goes downrange now");

  const pressed = Date.now();
  await press(line, "HOLD");
  await everywhere("hold");
  expect(Date.now() - pressed).toBeLessThan(1000);
  for (const { page } of people) await page.getByRole("heading", { name: "HOLD" }).waitFor();
  expect(await seriousFaults(crew.page)).toEqual([]);
  expect(await seriousFaults(officer.page)).toEqual([]);
  await sees(crew, "Judge: An official called it.");
  for (const person of people) await press(person, "Seen: quiet on this page");
  // Nobody else lifts it, whatever their page shows.
  await organiser.page.goto(`${base}/range`);
  await press(organiser, "Seen: quiet on this page");
  expect(await organiser.page.getByRole("button", { name: "Lift the hold" }).count()).toBe(0);
  const lift = {
    data: { holds: [] },
    headers: { "Idempotency-Key": `lift-by-another-${slug}`, Origin: programUrl() },
  };
  for (const { context } of [organiser, post, crew])
    expect((await context.request.post(`/api/v1${base}/range/lift`, lift)).status()).toBe(403);
  await press(officer, "Lift the hold");
  await everywhere("live");

  // Made safe first: what was said before the hold has fallen.
  await press(crew, "Made safe");
  await everywhere("cold");
  await readyToFire("Machine 1");
  await press(crew, "Fired");
  await sees(crew, "Machine 1 is fired");
  await line.page.goto(`${base}/judge`);
  await line.page.getByRole("radio", { name: "Landed" }).check();
  await line.page.locator("#bearing").fill("90.5");
  await line.page.locator("#distance").fill("62.4");
  await line.page.getByRole("button", { name: /^Save/ }).click();
  await line.page.getByRole("heading", { name: /^Saved/ }).waitFor();
  await press(officer, "Cold: end hot");
  await everywhere("live");
  await press(crew, "Made safe");
  await everywhere("cold");
  await organiser.page.goto(`${base}/standings`);
  const standingOf = (team: string) =>
    organiser.page.getByRole("row").filter({ hasText: team }).first().textContent();
  await expect.poll(() => standingOf("Team 1"), { timeout: 10_000 }).toContain("62.40 m");

  // The next turn is another team's, which takes over the phone.
  await signInWith(crew.context, secondCrew);
  await crew.page.goto(`${base}/order`);
  await sees(crew, "You are up.");
  await crew.page.goto(`${base}/crew`);
  await officer.page.getByRole("combobox", { name: "Machine" }).selectOption(machineIds[1] as string);
  await readyToFire("Machine 2");
  await press(crew, "Misfired");
  await sees(crew, /^Nobody goes near before/);
  await press(crew, "Made safe");
  await sees(crew, /another 1 min/);
  await line.page.goto(`${base}/judge`);
  await line.page.getByRole("radio", { name: "Misfire" }).check();
  await line.page.getByRole("button", { name: /^Save/ }).click();
  await line.page.getByRole("heading", { name: /^Saved/ }).waitFor();
  await expect.poll(() => standingOf("Team 2"), { timeout: 10_000 }).toContain("misfire");
  expect(await seriousFaults(crew.page)).toEqual([]);

  // A post that loses the server while the range is hot: it says so itself, and the range goes on hold.
  await post.context.setOffline(true);
  await sees(post, "This post counts as NOT CLEAR");
  await sees(post, "Server lost, last heard");
  people = [organiser, officer, crew];
  await everywhere("hold");
  await sees(officer, /Post north has not been heard/);
  const all = [organiser, officer, post, line, crew];
  for (const { faults } of all) expect(realFaults(faults)).toEqual([]);
  // Opened anew without a network it shows no range of before.
  await post.page.reload();
  await sees(post, "The range is not heard on this phone: it counts as not clear.");
  for (const { context } of all) await context.close();
}, 90_000);
