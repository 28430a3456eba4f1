/** The wind of the day on a phone: a reading beyond the limit, what no longer holds, and the same post's correction. */
import { afterAll, expect, it } from "vitest";
import { contestPath, openAs, realFaults, zonesOf } from "./fair-visitors";
import { closeBrowser, seriousFaults, sidewaysScroll } from "./support";

afterAll(closeBrowser);

it("a judge reads a wind beyond the limit: every distance that no longer holds is named, until the post reads it again", async () => {
  const before = (await zonesOf()).features;
  const { page, faults, done } = await openAs("judge", "phone", await contestPath("/wind"));
  await page.getByRole("heading", { name: "Readings so far" }).waitFor();
  // A press before the page is ready would send the form by itself.
  await page.waitForFunction(() => {
    const form = document.querySelector("form[aria-label='Read the wind']");
    return form && Object.keys(form).some((key) => key.startsWith("__reactProps"));
  });
  const fill = async (speed: string, gust: string) => {
    await page.getByLabel("Mean wind").fill(speed);
    await page.getByLabel("Top gust").fill(gust);
    await page.getByLabel("Blows from").fill("250");
    await page.getByLabel("Read by").fill("Line post");
    await page.getByRole("button", { name: "Enter the reading" }).click();
  };
  await fill("8", "4");
  await page.getByText("it cannot be below the mean speed").first().waitFor();

  await fill("8", "13");
  await page.getByText("Never: fire in this wind").waitFor();
  const table = page.getByRole("table", { name: /Distances that no longer hold/ });
  const [machine] = before;
  if (!machine) throw new Error("The demo has no zone.");
  const row = table.getByRole("row").filter({ hasText: machine.properties.machineName });
  await expect.poll(() => row.textContent(), { timeout: 60_000 }).toMatch(/forward \d+ m → \d+ m/);
  const now = (await zonesOf()).features.find(({ id }) => id === machine.id);
  expect(now?.properties.exclusion?.forward).toBeGreaterThan(machine.properties.exclusion?.forward ?? 0);
  expect(await row.textContent()).toContain(
    `${Math.ceil((now?.properties.exclusion?.forward ?? 0) + (now?.properties.accuracy ?? 0))} m`,
  );
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);

  await fill("2", "4");
  await page.getByText("Wind: measured, within the limit").waitFor();
  expect(await table.count()).toBe(0);
  const after = (await zonesOf()).features.find(({ id }) => id === machine.id);
  expect(after?.properties.exclusion).toEqual(machine.properties.exclusion);
  expect(realFaults(faults)).toEqual([]);
  await done();
}, 120_000);
