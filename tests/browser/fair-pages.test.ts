/** Every page of a contest at both sizes: what it needs to be usable by all, and what the standings cost to load. */
import { gzipSync } from "node:zlib";
import { afterAll, describe, expect, it } from "vitest";
import type { Role } from "@/lib/api/contracts";
import { contestPath, openAs, overviewOf, realFaults, shotsOf } from "./fair-visitors";
import { closeBrowser, openPage, SCREEN_NAMES, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

/** Where each page is and who reads it. */
async function pages(): Promise<[string, Role | null][]> {
  const [{ machines }, shots, base] = await Promise.all([overviewOf(), shotsOf(1), contestPath()]);
  return [
    ["/contests", null],
    [base, null],
    [`${base}/map`, null],
    [`${base}/standings`, null],
    [`${base}/scorebook?search=landing`, null],
    [`${base}/scorebook/head`, null],
    [`${base}/shots/${shots[0]?.id}`, null],
    ["/sign-in", null],
    ["/setup", null],
    [`${base}/splash`, null],
    [`${base}/order/paper`, null],
    [`${base}/order/tally`, null],
    [`${base}/judge`, "judge"],
    [`${base}/judge/paper`, "judge"],
    [`${base}/spot`, "judge"],
    [`${base}/machines/${machines[0]?.id}`, "organiser"],
    [`${base}/organise`, "organiser"],
    [`${base}/organise/teams`, "organiser"],
    [`${base}/organise/site`, "organiser"],
    [`${base}/organise/machines`, "organiser"],
    [`${base}/organise/badges`, "organiser"],
    [`${base}/organise/rounds`, "organiser"],
    [`${base}/organise/rulings`, "organiser"],
    [`${base}/organise/marking`, "organiser"],
    [`${base}/landing-log`, null],
    [`${base}/organise/conditions`, "safety-officer"],
  ];
}

describe.each(SCREEN_NAMES)("every page, %s", (screen) => {
  it.each([null, "judge", "organiser", "safety-officer"] as const)(
    "is right for everyone who may read it (%s)",
    async (role) => {
      const { page, faults, done } = await openAs(role, screen, "/contests");
      for (const [path, reader] of await pages()) {
        if (reader !== role) continue;
        const answer = await page.goto(path);
        await page.waitForLoadState("load");
        expect(`${answer?.status()} ${path}`).toBe(`200 ${path}`);
        expect([path, ...(await seriousFaults(page))]).toEqual([path]);
        expect([path, await sidewaysScroll(page)]).toEqual([path, 0]);
        expect([path, await page.getByRole("heading", { level: 1 }).count()]).toEqual([path, 1]);
        // Nothing here is ever called safe; a safety officer and a machine made safe are other words.
        expect([path, /\bsafe\b/i.test((await page.getByRole("main").textContent()) ?? "")]).toEqual([
          path,
          false,
        ]);
      }
      expect(realFaults(faults)).toEqual([]);
      await done();
    },
  );
});

it("helps where there is nothing, and answers 404", async () => {
  const context = await visitor("phone");
  const { page } = await openPage(context, "/contests");
  for (const path of [
    "/contests/no-such-fair",
    await contestPath("/shots/none"),
    await contestPath("/nowhere"),
  ]) {
    const answer = await page.goto(path);
    expect(`${answer?.status()} ${path}`).toBe(`404 ${path}`);
    expect(await page.getByRole("link", { name: "All contests" }).count()).toBe(1);
    expect(await seriousFaults(page)).toEqual([]);
  }
  await context.close();
});

it.each([
  ["organise", "judge", "an organiser"],
  ["organise/badges", "safety-officer", "an organiser"],
  ["organise/teams", "team", "an organiser"],
] as const)("/%s is closed to a %s, with the reason", async (part, role, who) => {
  const { page, done } = await openAs(role, "desk", await contestPath());
  const answer = await page.goto(await contestPath(`/${part}`));
  expect(answer?.status()).toBe(403);
  expect(await page.getByRole("main").textContent()).toContain(who);
  expect(await seriousFaults(page)).toEqual([]);
  await done();
});

it("the standings load at most 180 KB of script, compressed", async () => {
  const context = await visitor("phone");
  const page = await context.newPage();
  const bodies: Promise<Buffer>[] = [];
  page.on("response", (response) => {
    if (response.request().resourceType() === "script") bodies.push(response.body());
  });
  await page.goto(await contestPath("/standings"), { waitUntil: "load" });
  await page.getByText("● Live").waitFor();
  const sizes = (await Promise.all(bodies)).map((body) => gzipSync(body).length);
  expect(sizes.length).toBeGreaterThan(3);
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(180 * 1024);
  await context.close();
});

it("the standings explain ties and letters, and are a table at both sizes", async () => {
  for (const screen of SCREEN_NAMES) {
    const { page, done } = await openAs(null, screen, await contestPath("/standings"));
    const { divisions } = await overviewOf();
    for (const { name } of divisions) {
      const table = page.getByRole("region", { name, exact: true }).getByRole("table");
      expect(await table.getByRole("row").count()).toBeGreaterThan(1);
      expect(await table.textContent()).toMatch(/\d+\.\d\d m/);
    }
    const words = await page.getByRole("main").textContent();
    expect(words).toMatch(/split by the second best/);
    expect(words).toMatch(/NM: no mark.*DNS: did not start.*DNF: did not finish/);
    await page.getByRole("button", { name: /US customary/ }).click();
    await expect.poll(() => page.getByRole("main").textContent()).toMatch(/\d+\.\d\d ft/);
    await done();
  }
});
