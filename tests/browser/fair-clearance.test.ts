/** Inspecting a machine with a phone in one hand, the revision that a tape makes, the permit, and why it falls. */
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { contestWithMachine, newTestKey, realFaults, signInWith } from "./fair-visitors";
import { firstPage } from "./pdf-lines";
import { closeBrowser, openPage, programUrl, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const SLUG = "clearance-fair";
const BASE = `/contests/${SLUG}`;
const PLACE = { latitude: 44.2, longitude: -31.6 };

const ready = (page: Page, form: string) =>
  page.waitForFunction((label) => {
    const found = document.querySelector(`form[aria-label='${label}']`);
    return found && Object.keys(found).some((key) => key.startsWith("__reactProps"));
  }, form);

it("is inspected on a phone, revised as measured, permitted at a desk, and falls when it is turned", async () => {
  const organiser = await visitor("desk");
  const laid = await contestWithMachine(organiser, { slug: SLUG, name: "Clearance Fair", at: PLACE });
  const { lay, machineId: id, place } = laid;
  await place(90);
  const officer = { role: "safety-officer", label: "Officer" };
  const badge = await lay<{ id: string; code: string }>("/badges", officer);

  const inHand = await visitor("phone");
  await signInWith(inHand, badge.code);
  const { page, faults } = await openPage(inHand, `${BASE}/clearance/${id}/inspect`);
  // Typed before the page is ready it would be lost.
  await ready(page, "Write the inspection down");
  const field = page.getByLabel("Projectile, mass");
  // Measured first: what changes with it is looked at on the new revision.
  await field.fill("3.3 kg");
  await page.getByRole("button", { name: "Make revision 2 as measured" }).click();
  await page.getByText("Revision 2: 0 of").waitFor();
  expect(await page.getByText("outside the declared tolerance").count()).toBe(0);

  const openers = page.locator("ol h3 button");
  const lines = await openers.count();
  for (let line = 0; line < lines; line++) {
    if (line > 0) await page.getByRole("button", { name: /^Next: / }).click();
    const tile = line === 1 ? "Meets it with a limit" : "Meets it";
    await page.getByText(tile, { exact: true }).first().click();
    if (line === 1) await page.getByLabel(/What was found, and the limit/).fill("Pulled by two");
  }
  await page.getByText(`Revision 2: ${lines} of ${lines} lines done`).waitFor();
  // What a phone in a pocket forgets is not lost.
  await page.reload();
  await page.getByText(`Revision 2: ${lines} of ${lines} lines done`).waitFor();
  await page.getByText("Meets it with limits", { exact: true }).click();
  await page.getByLabel("The limits").fill("Two people pull the trigger");
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await page.getByRole("button", { name: "Write this inspection down" }).click();
  await page.getByText("Meets it with limits: revision 2").waitFor();
  await page.getByText("No firing permit has been signed for it.").waitFor();
  expect(realFaults(faults)).toEqual([]);

  const atDesk = await visitor("desk");
  // A second device of the same badge.
  const { code } = await lay<{ code: string }>(`/badges/${badge.id}/code`, { devices: "add" });
  await signInWith(atDesk, code);
  const desk = await openPage(atDesk, `${BASE}/clearance/${id}`);
  await ready(desk.page, "Sign a firing permit");
  await desk.page.getByRole("button", { name: "Sign this permit" }).click();
  await desk.page.getByText("Nobody has read the wind yet").first().waitFor();
  expect(await seriousFaults(desk.page)).toEqual([]);
  expect(await sidewaysScroll(desk.page)).toBe(0);
  await inHand.request.post(`/api/v1${BASE}/wind-readings`, {
    data: { speed: 0, gust: 0, direction: 0, observer: "Line post" },
    headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
  });
  await desk.page.getByText("Firing permit 1 stands").waitFor();

  await place(95);
  await desk.page.getByText("Never: fire Slow Gate").waitFor();
  await desk.page.getByText("turned to another bearing").first().waitFor();
  await desk.page.goto(`${BASE}/clearance`);
  await desk.page.getByText("Permit 1 has fallen").waitFor();
  expect(await seriousFaults(desk.page)).toEqual([]);
  await desk.page.goto(`${BASE}/clearance/${id}/permit`);
  await desk.page.getByRole("heading", { name: /^Firing permit No/ }).waitFor();
  for (const format of ["A4", "Letter"])
    expect(firstPage(await desk.page.pdf({ format, printBackground: true })).pages, format).toBe(1);
  expect(await seriousFaults(desk.page)).toEqual([]);
  expect(realFaults(desk.faults)).toEqual([]);
  for (const context of [organiser, inHand, atDesk]) await context.close();
}, 120_000);
