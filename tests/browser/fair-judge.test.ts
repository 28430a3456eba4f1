/** A judge at work: on a phone, by keyboard, without a network, with slips of the finger. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import {
  contestPath,
  historyOf,
  newTestKey,
  openAs,
  realFaults,
  shotsOf,
  signIn,
  tabTo,
} from "./fair-visitors";
import { closeBrowser, programUrl, type Screen, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

/** The judge's page, with the shot that is up chosen. */
async function openDesk(screen: Screen) {
  const opened = await openAs("judge", screen, await contestPath("/judge"));
  await opened.page.getByText("Connected:").waitFor();
  const up = (await shotsOf()).find(({ fix }) => fix === null);
  if (!up) throw new Error("The demo's last round has no shot left to enter.");
  expect(await opened.page.getByRole("heading", { level: 2 }).first().textContent()).toContain(
    up.entrantName,
  );
  return { ...opened, up };
}

async function enterLanding(page: Page, bearing: number, distance: string) {
  await page.getByRole("radio", { name: "Landed" }).check();
  await page.locator("#bearing").fill(String(bearing));
  await page.locator("#distance").fill(distance);
}

/** Keys of the entries that this phone keeps. */
const keptOnPhone = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<string[]>((resolve, reject) => {
        const opening = indexedDB.open("fairthrow");
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const reading = opening.result.transaction("entries").objectStore("entries").getAllKeys();
          reading.onsuccess = () => resolve(reading.result as string[]);
          reading.onerror = () => reject(reading.error);
        };
      }),
  );

const save = (page: Page) => page.getByRole("button", { name: /^Save/ });

describe("a judge", () => {
  it("enters a landing on a phone, and an open standings page elsewhere changes by itself", async () => {
    const watcher = await openAs(null, "desk", await contestPath("/standings"));
    await watcher.page.getByText("● Live").waitFor();
    const { page, up, faults, done } = await openDesk("phone");
    expect(await page.getByText("Up now", { exact: true }).isVisible()).toBe(true);
    await enterLanding(page, up.bearing + 1, "61.237 m");
    // The mark is seen before it is saved, rounded down to the centimetre, with its uncertainty.
    const preview = page.locator("output");
    await expect.poll(() => preview.textContent()).toMatch(/61\.23 m.*± 0\.\d+ m/);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    await save(page).click();
    await page.getByRole("heading", { name: "Saved" }).waitFor();
    const row = watcher.page.getByRole("row").filter({ hasText: up.entrantName }).first();
    await expect.poll(() => row.textContent(), { timeout: 10_000 }).toContain("61.23 m");
    expect(await watcher.page.locator('[aria-live="polite"]').first().textContent()).toContain(
      up.entrantName,
    );

    const saved = page.getByRole("region", { name: "What became of the entry" });
    expect(await saved.textContent()).toMatch(/61\.23 m.*Next: /s);
    expect(await seriousFaults(page)).toEqual([]);
    await saved.getByRole("button", { name: /^Next/ }).click();
    expect(await page.getByRole("heading", { level: 2 }).first().textContent()).not.toContain(up.entrantName);
    expect(realFaults([...faults, ...watcher.faults])).toEqual([]);
    await done();
    await watcher.done();
  });

  it("makes a usual entry with six taps beside the figures", async () => {
    const { page, up, done } = await openDesk("phone");
    await page.evaluate(() => {
      const counted = window as unknown as { taps: number };
      counted.taps = 0;
      const isFigure = (target: EventTarget | null) => /^[\d.]$/.test((target as Element).textContent ?? "");
      // A label's tap clicks its radio button too: only what the finger did counts.
      addEventListener(
        "click",
        (event) => event.isTrusted && event.detail > 0 && !isFigure(event.target) && counted.taps++,
        true,
      );
    });
    await page.getByText("Landed", { exact: true }).tap();
    const type = async (text: string) => {
      const keys = page.getByRole("group", { name: /^Keys for/ });
      for (const key of text) await keys.getByRole("button", { name: key, exact: true }).tap();
    };
    await page.getByRole("group", { name: "Keys for Bearing" }).waitFor();
    await type(String(up.bearing));
    await page.getByRole("button", { name: "Next", exact: true }).tap();
    await page.getByRole("group", { name: "Keys for Distance" }).waitFor();
    await type("58.25");
    await expect.poll(() => page.locator("output").textContent()).toContain("58.25 m");
    expect(await page.getByRole("img", { name: /^The landing point/ }).isVisible()).toBe(true);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await save(page).tap();
    await page.getByRole("heading", { name: "Saved" }).waitFor();
    await page.getByRole("button", { name: /^Next: / }).tap();
    await page.getByText("What happened?").waitFor();
    const taps = await page.evaluate(() => (window as unknown as { taps: number }).taps);
    expect(taps).toBeGreaterThan(2);
    expect(taps).toBeLessThanOrEqual(6);
    expect((await historyOf(up.id)).shot.fix?.mark).toBe(58.25);
    await done();
  });

  it("can do it with the keyboard alone", async () => {
    const { page, up, done } = await openDesk("desk");
    await tabTo(page, 'input[name="outcome"]');
    await page.keyboard.press("Space");
    await tabTo(page, "#bearing");
    await page.keyboard.type(String(up.bearing));
    await page.keyboard.press("Tab");
    await page.keyboard.type("190 ft 3 in");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Saved" }).waitFor();
    expect(
      await page.getByRole("heading", { name: "Saved" }).evaluate((h) => h === document.activeElement),
    ).toBe(true);
    // 190.25 ft = 57.9882 m (the international foot, NIST SP 811), rounded down to the centimetre.
    expect((await historyOf(up.id)).shot.fix?.mark).toBe(57.98);
    await tabTo(page, "button.button-main");
    await page.keyboard.press("Enter");
    await page.getByText("What happened?").waitFor();
    await done();
  });

  it("never loses an entry whose answer was lost, and sending it again changes nothing", async () => {
    const { page, context, up, done } = await openDesk("phone");
    const keys: string[] = [];
    await page.route("**/fixes", async (route) => {
      keys.push(route.request().headers()["idempotency-key"] ?? "");
      // It reaches the server, and the answer gets lost on its way back.
      await route.fetch();
      await route.abort();
    });
    await page.getByRole("radio", { name: "Landed" }).check();
    await page.getByRole("radio", { name: "Satellite position" }).check();
    const { firingPoint } = await historyOf(up.id);
    await page
      .locator("#position")
      .fill(`${firingPoint.latitude.toFixed(6)}, ${(firingPoint.longitude + 0.0007).toFixed(6)}`);
    await save(page).click();
    await page.getByRole("heading", { name: /Kept on this phone/ }).waitFor();
    const stored = () => keptOnPhone(page);
    expect(await stored()).toEqual([keys[0]]);
    expect(await seriousFaults(page)).toEqual([]);

    // A reload keeps it, and the next try carries the same key.
    await page.unroute("**/fixes");
    await context.setOffline(true);
    expect(await stored()).toEqual([keys[0]]);
    page.on("request", (request) => {
      if (request.url().endsWith("/fixes")) keys.push(request.headers()["idempotency-key"] ?? "");
    });
    await context.setOffline(false);
    await page.reload();
    await expect.poll(stored, { timeout: 20_000 }).toEqual([]);
    expect(new Set(keys).size).toBe(1);
    expect(keys.length).toBeGreaterThan(1);
    expect((await historyOf(up.id)).fixes).toHaveLength(1);
    await done();
  });

  it("keeps what was typed when there is no network, and sends it when asked", async () => {
    const { page, context, up, faults, done } = await openDesk("phone");
    await context.setOffline(true);
    await page.getByText("Not connected.").waitFor();
    await page.getByRole("radio", { name: "Burst" }).check();
    await save(page).click();
    await page.getByRole("heading", { name: /Kept on this phone/ }).waitFor();
    // The day goes on: the next shot can be entered meanwhile.
    await page.getByRole("button", { name: /^Next/ }).click();
    await page.getByText("What happened?").waitFor();
    expect((await historyOf(up.id)).fixes).toHaveLength(0);
    await context.setOffline(false);
    const again = page.getByRole("button", { name: "Send again" });
    // It goes by itself as soon as the browser says so; pressing does no harm.
    if (await again.isVisible()) await again.click({ timeout: 1000 }).catch(() => {});
    await expect.poll(async () => (await historyOf(up.id)).fixes.length, { timeout: 20_000 }).toBe(1);
    await again.waitFor({ state: "detached" });
    expect(realFaults(faults)).toEqual([]);
    await done();
  });

  it("who comes second to a shot makes another entry of it, and both are kept", async () => {
    const { page, up, done } = await openDesk("phone");
    await enterLanding(page, up.bearing, "71.5");
    // Another judge is faster, while this phone hears nothing of it.
    await page.route("**/shots?round=*", (route) => route.abort());
    const other = await visitor("phone");
    await signIn(other, "judge");
    const fixes = `/api/v1${await contestPath(`/shots/${up.id}/fixes`)}`;
    const recorded = other.request.post(fixes, {
      data: { fix: { outcome: "landed", method: "bearing-distance", bearing: up.bearing, distance: 70 } },
      headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
    });
    expect((await recorded).status()).toBeLessThan(300);
    await save(page).click();
    await page.getByRole("heading", { name: "Saved" }).waitFor();
    const { fixes: kept, shot } = await historyOf(up.id);
    expect(kept.map(({ mark }) => mark)).toEqual([71.5, 70]);
    expect(kept[0]?.flags.map(({ code }) => code)).toContain("another-entry");
    // A metre and a half apart by tape: never averaged.
    expect(shot.result).toMatchObject({ how: "disagree", mark: null });
    await other.close();
    await done();
  });

  it("corrects an entry with a reason, and the old value stays to be seen", async () => {
    const shot = (await shotsOf(1)).find(({ fix }) => fix?.outcome === "landed");
    if (!shot?.fix?.mark) throw new Error("Round 1 of the demo has no measured shot.");
    const old = `${shot.fix.mark.toFixed(2)} m`;
    const { page, done } = await openAs("judge", "phone", await contestPath("/judge?round=1"));
    await page.getByRole("button", { name: new RegExp(shot.entrantName) }).click();
    await page.getByRole("button", { name: "Correct this entry" }).click();
    await enterLanding(page, shot.bearing, "66.5");
    await save(page).click();
    // Not without a reason.
    const reason = page.locator("#reason");
    await expect.poll(() => reason.evaluate((input) => input === document.activeElement)).toBe(true);
    expect(await page.locator("#reason-error").textContent()).toContain("Reason");
    await reason.fill("The tape was read at the wrong end");
    await save(page).click();
    await page.getByRole("heading", { name: "Saved" }).waitFor();

    await page.goto(await contestPath(`/shots/${shot.id}`));
    const entries = page.locator("main ol > li");
    const [now, before] = await entries.allTextContents();
    expect(now).toMatch(/66\.50 m.*counts.*Judge 1.*The tape was read at the wrong end/s);
    expect(before).toContain(old);
    expect(before).toMatch(/was replaced.*by Judge \d/s);
    expect(await seriousFaults(page)).toEqual([]);
    await done();
  });

  it("is told which field is wrong and keeps what was typed; warnings do not block", async () => {
    const { page, up, done } = await openDesk("phone");
    await save(page).click();
    expect(await page.locator("#outcome-error").textContent()).toContain("Outcome");
    await enterLanding(page, up.bearing, "far");
    await save(page).click();
    const distance = page.locator("#distance");
    expect(await distance.getAttribute("aria-invalid")).toBe("true");
    expect(await page.locator("#distance-error").textContent()).toMatch(/Distance/);
    expect(await distance.inputValue()).toBe("far");
    expect(await distance.evaluate((input) => input === document.activeElement)).toBe(true);
    await page.locator("#bearing").fill("400");
    await distance.fill("2500");
    await save(page).click();
    expect(await page.locator("#bearing-error").textContent()).toContain("360");
    await page.locator("#bearing").fill(String(up.bearing));
    await page.getByText(/beyond the worst throw/).waitFor();
    expect(await save(page).isEnabled()).toBe(true);
    // Typed and not saved: still there after a reload.
    await page.reload();
    await expect.poll(() => distance.inputValue()).toBe("2500");
    expect((await historyOf(up.id)).fixes).toHaveLength(0);
    await done();
  });
});

it.each([
  ["team", "a judge"],
  [null, "a judge"],
] as const)("shows the judge's page to no %s, and says whose it is", async (role, who) => {
  const { page, done } = await openAs(role, "phone", await contestPath("/judge"));
  const answer = await page.reload();
  expect(answer?.status()).toBe(403);
  const words = await page.getByRole("main").textContent();
  expect(words).toContain(who);
  expect(words).toContain("403");
  expect(await page.getByRole("main").getByRole("link", { name: "Sign in" }).getAttribute("href")).toContain(
    "%2Fjudge",
  );
  expect(await seriousFaults(page)).toEqual([]);
  await done();
});
