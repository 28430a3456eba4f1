/** An incident from a judge's phone without a network, the hold that it brings, and what the safety officer reads of it. */
import { afterAll, expect, it } from "vitest";
import { direct } from "@/lib/earth";
import { contestWithMachine, realFaults, signInWith } from "./fair-visitors";
import { firstPage } from "./pdf-lines";
import { closeBrowser, openPage, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const SLUG = "incident-fair";
const BASE = `/contests/${SLUG}`;
const PLACE = { latitude: 44.2, longitude: -31.6 };

it("is entered on a phone without a network, holds the range, and is read on the map by the safety officer alone", async () => {
  const organiser = await visitor("desk");
  const { lay, place } = await contestWithMachine(organiser, {
    slug: SLUG,
    name: "Incident Fair",
    at: PLACE,
  });
  await place(90);
  // Waits for the sheet: without one nobody could tell how far outside the piece lies.
  await organiser.request.get(`/api/v1${BASE}/zones`);
  const badge = async (role: string) => (await lay<{ code: string }>("/badges", { role, label: role })).code;
  const [judgeCode, officerCode] = [await badge("judge"), await badge("safety-officer")];

  const inHand = await visitor("phone");
  await signInWith(inHand, judgeCode);
  const judge = await openPage(inHand, `${BASE}/incidents/new`);
  const { page } = judge;
  await page.locator("[data-waiting='0']").waitFor();
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await inHand.setOffline(true);
  await page.getByRole("button", { name: "Enter the incident" }).click();
  await page.getByText("Machine: choose the one that it happened with.").waitFor();
  await page.getByLabel("Machine", { exact: true }).selectOption({ label: "1 Slow Gate" });
  await page.getByText("Nobody", { exact: true }).click();
  await page.getByText("Where something lies, what happened, from paper").click();
  const far = direct(PLACE, 80, 300);
  await page
    .getByLabel("Where something lies: latitude, longitude")
    .fill(`${far.latitude}, ${far.longitude}`);
  await page.getByLabel("What happened (optional)").fill("A crack, then the arm was gone");
  await page.getByRole("button", { name: "Enter the incident" }).click();
  await page.getByRole("heading", { name: "Kept on this phone" }).waitFor();
  await inHand.setOffline(false);
  await page.getByRole("heading", { name: "Incident 1: Slow Gate" }).waitFor();
  await page.getByText("The range is on hold.").waitFor();
  expect(await page.getByText(/OUTSIDE the zone/).count()).toBeGreaterThan(0);
  await page.locator("[data-range='hold']").waitFor();
  // A judge enters it, and reads no other.
  expect((await inHand.request.get(`/api/v1${BASE}/incidents`)).status()).toBe(403);

  const atDesk = await visitor("desk");
  await signInWith(atDesk, officerCode);
  const desk = await openPage(atDesk, `${BASE}/incidents`);
  const officer = desk.page;
  await officer.getByText("1 of 1 count as OUTSIDE the zone").waitFor();
  await officer.getByText("An incident was entered for Slow Gate").first().waitFor();
  expect(await seriousFaults(officer)).toEqual([]);
  await officer.goto(await hrefOf(officer.getByRole("link", { name: "Incident 1: Slow Gate" })));
  await officer.locator("[data-ready='yes']").waitFor();
  await officer.getByText("1 OUTSIDE").waitFor();
  await officer.getByRole("heading", { name: "What the zone would have to be" }).waitFor();
  await officer.getByText("Nothing explains it: hold the range").waitFor();
  await officer.getByText("A crack, then the arm was gone").waitFor();
  expect(await seriousFaults(officer)).toEqual([]);
  // The paper: one sheet.
  await officer.goto(`${BASE}/incidents/paper`);
  expect(firstPage(await officer.pdf()).pages).toBe(1);
  expect(realFaults(desk.faults)).toEqual([]);
  await Promise.all([organiser, inHand, atDesk].map((context) => context.close()));
});

const hrefOf = async (link: { getAttribute(name: string): Promise<string | null> }) =>
  (await link.getAttribute("href")) ?? "";
