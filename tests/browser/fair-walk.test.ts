/** Walking the zones with a phone: inside and how deep, outside and how far, inexact, old, forbidden, and offline. */
import type { BrowserContext } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import { direct, inverse } from "@/lib/earth";
import { contestPath, newTestKey, openAs, overviewOf, realFaults, zonesOf } from "./fair-visitors";
import { closeBrowser, openPage, programUrl, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

type Spot = { latitude: number; longitude: number; accuracy?: number };

/** A walker with a phone at a place, who has allowed the position or not. */
async function walker(spot: Spot | null) {
  const context = await visitor("phone", spot ? { permissions: ["geolocation"] } : {});
  if (spot) await stand(context, spot);
  const opened = await openPage(context, await contestPath("/walk"));
  return { ...opened, context };
}

const stand = (context: BrowserContext, spot: Spot) => context.setGeolocation({ accuracy: 5, ...spot });

/** A machine's firing point: as deep inside its own zone as its least distances are wide. */
async function firingPoint() {
  const { features } = await zonesOf();
  const { firingPoints } = await overviewOf();
  const zone = features.find(({ geometry }) => geometry);
  const point = firingPoints.find(({ id }) => id === zone?.properties.firingPointId);
  if (!zone || !point) throw new Error("The demo has no zone.");
  return { zone, point: { latitude: point.latitude, longitude: point.longitude } };
}

describe("walking the zone", () => {
  it("says in whose zone a phone stands, how deep, and the way out; then how far off", async () => {
    const { zone, point } = await firingPoint();
    const { page, context, faults } = await walker(point);
    await page.getByText(/Inside the zone of/).waitFor();
    await page.getByLabel("Zones that count").selectOption(zone.id);
    const panel = page.locator("main");
    await expect.poll(() => panel.textContent()).toMatch(/to the nearest way out/);
    await page.getByText(`Inside the zone of ${zone.properties.machineName}`).waitFor();
    const depth = Number(/(\d+) m/.exec((await page.getByText(/^\d+ m$/).textContent()) ?? "")?.[1]);
    const side = zone.properties.exclusion?.side ?? 0;
    expect(depth).toBeGreaterThan(5);
    expect(depth).toBeLessThanOrEqual(Math.ceil(side) + 6);
    expect(await panel.textContent()).toMatch(/Go (north|east|south|west)/);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    // Following the words leads out: the bearing that it says, and as far.
    const bearing = Number(/, (\d{3})°\. On/.exec((await panel.textContent()) ?? "")?.[1]);
    await stand(context, direct(point, bearing, depth + 8));
    await page.getByText("Outside", { exact: true }).waitFor();
    const off = Number(/(\d+) m/.exec((await page.getByText(/^\d+ m$/).textContent()) ?? "")?.[1]);
    expect(off).toBeLessThanOrEqual(9);
    expect((await panel.textContent())?.toLowerCase()).not.toContain("safe ");
    expect(await seriousFaults(page)).toEqual([]);

    // Far off, every zone counting.
    const far = direct(point, 0, 5000);
    await stand(context, far);
    await page.getByLabel("Zones that count").selectOption("all");
    await expect
      .poll(async () => Number(/(\d+) m/.exec((await page.getByText(/^\d+ m$/).textContent()) ?? "")?.[1]))
      .toBeGreaterThan(3000);
    expect(inverse(far, point).distance).toBeGreaterThan(3000);
    expect(realFaults(faults)).toEqual([]);
    await context.close();
  });

  it("counts the accuracy against the walker, and tells of one that is poor", async () => {
    const { zone, point } = await firingPoint();
    const { page, context } = await walker({ ...point, accuracy: 5 });
    await page.getByLabel("Zones that count").selectOption(zone.id);
    await page.getByText(/Inside the zone of/).waitFor();
    const depth = async () =>
      Number(/(\d+) m/.exec((await page.getByText(/^\d+ m$/).textContent()) ?? "")?.[1]);
    const before = await depth();
    expect(await page.getByText("Inexact position").count()).toBe(0);
    await stand(context, { ...point, accuracy: 45 });
    await page.getByText("Inexact position").waitFor();
    expect(await depth()).toBe(before + 40);
    await context.close();
  });

  it("works on with the network gone, says so, and says when the position is old", async () => {
    const { zone, point } = await firingPoint();
    const { page, context, faults } = await walker(direct(point, 0, 5000));
    await page.getByText("as the server has them now").waitFor();
    await page.getByText("Outside", { exact: true }).waitFor();
    await context.setOffline(true);
    await page.getByText(/No network\. The zones are those of/).waitFor();
    await stand(context, point);
    await page.getByText(/Inside the zone of/).waitFor();
    expect(await page.locator("main").textContent()).toContain(zone.properties.machineName);
    await page.getByText(/The position is \d+ s old: this is where you were/).waitFor({ timeout: 20_000 });
    expect(realFaults(faults)).toEqual([]);
    await context.close();
  });

  it("finds the zones again after a reload when the server gives none", async () => {
    const { point } = await firingPoint();
    const { page, context } = await walker(point);
    await page.getByText(/Inside the zone of/).waitFor();
    await page.route("**/api/v1/**", (route) => route.abort());
    await page.reload();
    await page.getByText(/Inside the zone of/).waitFor();
    await page.getByText(/No network\. The zones are those of/).waitFor();
    await context.close();
  });

  it("opens again without a network, though nobody was on a judge's page", async () => {
    const { point } = await firingPoint();
    const { page, context } = await walker(point);
    await page.getByText("Without a network this page and the map open from this phone.").waitFor();
    await page.getByText(/Inside the zone of/).waitFor();
    await context.setOffline(true);
    await page.reload();
    await page.getByText(/Inside the zone of/).waitFor();
    await page.getByText(/No network\. The zones are those of/).waitFor();
    await context.close();
  });

  it("says that the zones are old while they are computed anew", async () => {
    const { point } = await firingPoint();
    const { page, context } = await walker(point);
    await page.getByText("as the server has them now").waitFor();
    // As while sheets are computed: the server holds its answer back.
    let answer = () => {};
    const held = new Promise<void>((resolve) => {
      answer = resolve;
    });
    await page.route("**/zones", async (route) => {
      await held;
      await route.continue();
    });
    const officer = await openAs("safety-officer", "desk", "/");
    const put = await officer.context.request.put(`/api/v1${await contestPath("/air")}`, {
      data: { air: (await zonesOf()).air, reason: "The same air, said again" },
      headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
    });
    expect(put.ok(), await put.text()).toBe(true);
    await officer.done();
    await page.getByText("The zones are being computed anew; those shown are from before.").waitFor();
    expect(await page.getByText("as the server has them now").count()).toBe(0);
    expect(await page.getByRole("note").first().textContent()).toMatch(/old\s+ones.*keep well away/is);
    expect(await seriousFaults(page)).toEqual([]);
    answer();
    await page.getByText("as the server has them now").waitFor();
    await context.close();
  });

  it("says when the position is not allowed, and when the page may not ask", async () => {
    const { page, context } = await walker(null);
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByText("The position is not allowed").waitFor();
    await context.close();

    const insecure = await visitor("phone");
    await insecure.addInitScript(() => Object.defineProperty(window, "isSecureContext", { value: false }));
    const opened = await openPage(insecure, await contestPath("/walk"));
    await opened.page.getByText("did not come over https").waitFor();
    await insecure.close();
  });
});
