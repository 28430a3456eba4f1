/** Four roles practise hold on the demo: one starts it, one calls, one lifts, all see it, and what came of it is told. */
import { afterAll, expect, it } from "vitest";
import { contestPath, openAs, realFaults } from "./fair-visitors";
import { closeBrowser, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

it("somebody is hurt as played, a judge's phone calls hold, the safety officer lifts it, and the time stands there", async () => {
  const organiser = await openAs("organiser", "desk", await contestPath("/rehearsal"));
  const officer = await openAs("safety-officer", "phone", await contestPath("/range"));
  const judge = await openAs("judge", "phone", await contestPath("/judge"));
  const team = await openAs("team", "phone", await contestPath("/crew"));
  const all = [organiser, officer, judge, team];
  const form = organiser.page.getByRole("form", { name: "Rehearsal" });
  for (const not of [/misfire/, /phone is dead/, /loses the network/]) await form.getByLabel(not).uncheck();
  await form.getByLabel("Turns").fill("0");
  await form.getByLabel("Pace").selectOption({ label: "Fast: 2 s from step to step" });
  await form.getByLabel("Safety officer", { exact: true }).uncheck();
  await form.getByRole("button", { name: "Start the rehearsal" }).click();
  await organiser.page.getByText(/turns: /).waitFor();
  await form.getByLabel("Turns").fill("1");
  await form.getByRole("button", { name: "Start the rehearsal" }).click();

  await Promise.all(all.map(({ page }) => page.getByText(/does not get up/).waitFor({ timeout: 40_000 })));
  for (const { page } of all) {
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
  }
  await judge.page.getByRole("button", { name: "HOLD" }).click();
  for (const { page } of all) {
    const screen = page.getByRole("region", { name: "Hold" });
    await screen.getByText("This is a rehearsal.", { exact: false }).waitFor();
  }
  await officer.page.getByRole("button", { name: "Seen: quiet on this page" }).click();
  await officer.page.getByRole("button", { name: "Lift the hold" }).click();
  await Promise.all(
    all.map(({ page }) => page.locator("[data-rehearsal]").waitFor({ state: "detached", timeout: 20_000 })),
  );
  const row = organiser.page.getByRole("row").filter({ hasText: "Somebody is hurt in a live zone" });
  await expect.poll(() => row.first().textContent()).toMatch(/after \d+\.\d s, by Judge 1/);
  for (const { faults, done } of all) {
    expect(realFaults(faults)).toEqual([]);
    await done();
  }
}, 90_000);
