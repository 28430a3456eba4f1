/**
 * One turn by four people at once, each with their own page: the safety officer at a desk, a post, the tally at the line and
 * the crew's chief on phones. A hold on all of them, and a phone that loses the server.
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
let officer: Person;
let post: Person;
let line: Person;
let chief: Person;
let people: Person[];

beforeAll(async () => {
  const organiser = new Client(api);
  await organiser.signIn(codeOf("organiser"));
  const contest = { slug, name: "A fair of four", date: "2031-10-04", ...MIDDLE, rounds: 1 };
  const { badge } = await organiser.ask<{ badge: { code: string } }>("POST", "/contests", contest);
  await organiser.signIn(badge.code);
  const { shots } = await layFair(organiser, slug, { entrants: 2, rounds: 1, place: MIDDLE, bearing: 90 });
  const geometry = { type: "Point", coordinates: [MIDDLE.longitude - 0.004, MIDDLE.latitude + 0.002] };
  await organiser.ask("POST", `${base}/features`, { kind: "post", name: "Post north", geometry });
  const codes: string[] = [];
  for (const who of [
    { role: "safety-officer", label: "Safety officer" },
    { role: "judge", label: "Post north" },
    { role: "judge", label: "Line" },
    { role: "team", label: "Team 1", entrantId: shots[0]?.entrantId },
  ])
    codes.push((await organiser.ask<{ code: string }>("POST", `${base}/badges`, who)).code);
  const safety = new Client(api);
  await safety.signIn(codes[0] as string);
  await permitAll(safety, base, [shots[0]?.machineId as string]);
  const times = { silence: 6, clearLasts: 600, misfireWait: 60 };
  await safety.ask("PUT", `${base}/range/times`, { times, reason: "Quick phones" });
  const open = async (index: number, screen: Screen, path: string): Promise<Person> => {
    const context = await visitor(screen);
    await signInWith(context, codes[index] as string);
    return { context, ...(await openPage(context, `${base}/${path}`)) };
  };
  officer = await open(0, "desk", "range");
  post = await open(1, "phone", "post");
  line = await open(2, "phone", "tally");
  chief = await open(3, "phone", "crew");
  people = [officer, post, line, chief];
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

async function readyToFire(): Promise<void> {
  await press(chief, "Raising");
  await sees(chief, "Machine 1 is raising");
  await everywhere("live");
  await press(chief, "Armed");
  await sees(chief, "Machine 1 is armed");
  await press(post, "Clear");
  await sees(post, "✓ Post north says CLEAR");
  await officer.page.getByRole("checkbox", { name: /Firing point 1/ }).click();
  await sees(officer, "Nothing stands in the way");
  await press(officer, "Hot for Machine 1");
  await everywhere("hot");
}

it("four people take one machine through a turn, with a hold that all of them see at once", async () => {
  await post.page.getByLabel("I stand at").selectOption({ label: "Post north" });
  await sees(post, "✗ Post north counts as NOT CLEAR");
  await line.page.getByLabel("Name, or number of the tag").fill("17");
  await press(line, "Tag out");
  await sees(line, "✗ One is out");
  await press(chief, "Raising");
  await sees(chief, "nobody raises until everybody is tagged in at the line");
  await officer.page.getByRole("combobox", { name: "Machine" }).selectOption({ index: 1 });
  await sees(officer, "One tag is out: tag everybody in at the line.");
  await sees(officer, "Post north has not said clear: call the post.");
  for (const { page } of people) {
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
  }
  await press(line, /^In ?: Tag 17$/);
  await sees(line, "✓ Nobody is out");
  await readyToFire();
  await sees(line, "Nobody goes downrange now");

  const pressed = Date.now();
  await press(line, "HOLD");
  await everywhere("hold");
  expect(Date.now() - pressed).toBeLessThan(1000);
  for (const { page } of people) await page.getByRole("heading", { name: "HOLD" }).waitFor();
  expect(await seriousFaults(chief.page)).toEqual([]);
  expect(await seriousFaults(officer.page)).toEqual([]);
  await sees(post, "Line: An official called it.");
  for (const person of people) await press(person, "Seen: quiet on this page");
  await press(officer, "Lift the hold");
  await everywhere("live");

  // Made safe first: what was said before the hold has fallen.
  await press(chief, "Made safe");
  await everywhere("cold");
  await readyToFire();
  await press(chief, "Fired");
  await sees(chief, "Machine 1 is fired");
  await press(officer, "Cold: end hot");
  await everywhere("live");
  await press(chief, "Made safe");
  await everywhere("cold");

  // A post that loses the server while the range is hot: it says so itself, and the range goes on hold.
  await readyToFire();
  await post.context.setOffline(true);
  await sees(post, "This post counts as NOT CLEAR");
  await sees(post, "Server lost, last heard");
  people = [officer, line, chief];
  await everywhere("hold");
  await sees(officer, /Post north has not been heard/);
  for (const { faults } of [officer, post, line, chief]) expect(realFaults(faults)).toEqual([]);
  // Opened anew without a network it shows no range of before.
  await post.page.reload();
  await sees(post, "The range is not heard on this phone: it counts as not clear.");
  for (const { context } of [officer, post, line, chief]) await context.close();
}, 90_000);
