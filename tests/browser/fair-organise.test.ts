/** Running the contest on screen: signing in, teams, site, badges, placement, rulings; each by who may. */
import type { Page } from "playwright-core";
import { afterAll, describe, expect, it } from "vitest";
import {
  codeOf,
  contestPath,
  newTestKey,
  openAs,
  overviewOf,
  realFaults,
  shotsOf,
  zonesOf,
} from "./fair-visitors";
import { closeBrowser, openPage, programUrl, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const isFocused = (page: Page, selector: string) =>
  page.locator(selector).evaluate((element) => element === document.activeElement);

describe("signing in", () => {
  it("says what is wrong with a code, keeps it, and leads a judge to the judge's page", async () => {
    const context = await visitor("phone");
    const { page, faults } = await openPage(context, "/sign-in");
    await page.locator("#code").fill("AAAA-BBBB-CCCC");
    await page.getByRole("button", { name: "Sign in" }).click();
    await page.locator("#code-error").waitFor();
    expect(await page.locator("#code-error").textContent()).toMatch(/code/i);
    expect(await page.locator("#code").inputValue()).toBe("AAAA-BBBB-CCCC");
    expect(await isFocused(page, "#code")).toBe(true);
    expect(await seriousFaults(page)).toEqual([]);
    // Small letters and missing dashes do not matter.
    await page.locator("#code").fill(codeOf("judge").toLowerCase().replaceAll("-", " "));
    await page.keyboard.press("Enter");
    await page.waitForURL("**/judge");
    await page.getByRole("heading", { name: "Landing points" }).waitFor();
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.waitForURL("**/sign-in");
    expect((await page.goto(await contestPath("/judge")))?.status()).toBe(403);
    expect(realFaults(faults)).toEqual([]);
    await context.close();
  });

  it("leads only to pages of this site", async () => {
    const context = await visitor("desk");
    const { page } = await openPage(context, "/sign-in?next=//elsewhere.example/judge");
    await page.locator("#code").fill(codeOf("team"));
    await page.keyboard.press("Enter");
    await page.waitForURL(`**${await contestPath()}`);
    await context.close();
  });
});

describe("an organiser", () => {
  it("enters a team; what is refused stays typed and is told at its field", async () => {
    const { page, faults, done } = await openAs("organiser", "phone", await contestPath("/organise/teams"));
    const before = await overviewOf();
    const form = page.getByRole("form", { name: "Enter a team" });
    const taken = before.entrants[0]?.name ?? "";
    await form.locator("#entrant-name").fill(taken);
    await form.getByRole("button").click();
    await page.locator("#entrant-name-error").waitFor();
    expect(await page.locator("#entrant-name-error").textContent()).toContain(taken);
    expect(await form.locator("#entrant-name").inputValue()).toBe(taken);
    expect(await isFocused(page, "#entrant-name")).toBe(true);
    expect(await seriousFaults(page)).toEqual([]);
    expect((await overviewOf()).sequence).toBe(before.sequence);

    await form.locator("#entrant-name").fill("Windfall Apprentices");
    await form.locator("#entrant-number").fill("number nine");
    await form.getByRole("button").click();
    await page.locator("#entrant-number-error").waitFor();
    await form.locator("#entrant-number").fill("99");
    await form.getByRole("button").click();
    await page.getByText("Windfall Apprentices is entered with number 99.").waitFor();
    await page.getByRole("rowheader", { name: "Windfall Apprentices" }).waitFor();
    expect(await form.locator("#entrant-name").inputValue()).toBe("");
    expect(await sidewaysScroll(page)).toBe(0);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });

  it("changes a feature's rule and stand-off, retires it, finds it among the retired and brings it back", async () => {
    const { page, done } = await openAs("organiser", "desk", await contestPath("/organise/site"));
    page.on("dialog", (dialog) => dialog.accept());
    const feature = (await overviewOf()).features.find(
      ({ kind, retired }) => kind === "building" && !retired,
    );
    if (!feature) throw new Error("The demo has no building.");
    const row = page
      .getByRole("table", { name: "Site features" })
      .getByRole("row")
      .filter({
        has: page.getByRole("rowheader", { name: feature.name, exact: true }),
      });
    await row.getByRole("button", { name: `Change ${feature.name}` }).click();
    await page.locator("#feature-rule").selectOption("hot");
    await page.locator("#feature-stand-off").fill("40 ft");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText(`Building ${feature.name} is saved and on the map.`).waitFor();
    const changed = (await overviewOf()).features.find(({ id }) => id === feature.id);
    expect(changed).toMatchObject({ rule: "hot", standOff: 12.192, geometry: feature.geometry });
    await expect
      .poll(() => row.textContent(), { timeout: 10_000 })
      .toMatch(/protected always \(its kind’s, until the safety officer allows less\).*12\.2 m/);

    // What protects less than its kind takes the safety officer's word.
    const officer = await openAs("safety-officer", "phone", await contestPath("/organise/conditions"));
    const form = officer.page.getByRole("form", { name: `Allow for ${feature.name}` });
    await form.getByRole("textbox").fill("The barn is locked and watched");
    expect(await seriousFaults(officer.page)).toEqual([]);
    await form.getByRole("button").click();
    await officer.page.getByText("Allowed: The barn is locked and watched").waitFor();
    await officer.done();
    await page.reload();
    await expect
      .poll(() => row.textContent(), { timeout: 10_000 })
      .toMatch(/protected while the range is hot.*12\.2 m/);

    await row.getByRole("button", { name: "Retire" }).click();
    await expect.poll(() => row.count(), { timeout: 10_000 }).toBe(0);
    await page.locator("#filter-state").selectOption("retired");
    await row.getByRole("button", { name: "Bring back" }).click();
    await expect.poll(() => row.count(), { timeout: 10_000 }).toBe(0);
    await page.locator("#filter-state").selectOption("drawn");
    await row.waitFor();
    expect(await seriousFaults(page)).toEqual([]);

    // As it was, for the other tests.
    const back = await page.request.patch(`/api/v1${await contestPath(`/features/${feature.id}`)}`, {
      data: { rule: feature.rule, standOff: feature.standOff },
      headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
    });
    expect(back.ok()).toBe(true);
    await done();
  });

  it("puts the contest's days right, and is told which are wrong", async () => {
    const before = await overviewOf();
    const { page, done } = await openAs("organiser", "phone", await contestPath("/organise/contest"));
    await page.locator("#contest-last-date").fill("2020-01-01");
    await page.getByRole("button", { name: "Save the particulars" }).click();
    await page.locator("#contest-last-date-error").waitFor();
    expect(await page.locator("#contest-last-date-error").textContent()).toContain(before.date);
    await page.locator("#contest-last-date").fill(before.date.replace(/\d\d$/, "28"));
    await page.getByRole("button", { name: "Save the particulars" }).click();
    await page.getByText("Saved. Landing points").waitFor();
    expect((await overviewOf()).lastDate).toBe(before.date.replace(/\d\d$/, "28"));
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await seriousFaults(page)).toEqual([]);
    await page.locator("#contest-last-date").fill("");
    await page.getByRole("button", { name: "Save the particulars" }).click();
    await expect.poll(async () => (await overviewOf()).lastDate).toBeNull();
    await done();
  });

  it("makes a badge whose code signs in one phone once, gives it a new code and another end, and revokes it", async () => {
    const { page, done } = await openAs("organiser", "phone", await contestPath("/organise/badges"));
    await page.locator("#badge-label").fill("Judge at the brook");
    expect(await page.locator("#badge-end").inputValue()).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d$/);
    await page.getByRole("button", { name: "Make the badge" }).click();
    const made = page.locator(".notice", { hasText: "Judge at the brook is made" });
    await made.waitFor();
    const code = (await made.locator("code").textContent()) ?? "";
    expect(await made.textContent()).toMatch(/Ends \d.*The code signs in one device, once/);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);

    // As a phone's camera opens what the card's square holds: it stays in no address, and goes to no server with one.
    const context = await visitor("phone");
    const sent: string[] = [];
    context.on("request", (request) => {
      sent.push(`${request.url()} ${JSON.stringify(request.headers())}`);
    });
    const judge = await openPage(context, `/sign-in#${code}`);
    await expect.poll(() => judge.page.locator("#code").inputValue()).toBe(code);
    expect(new URL(judge.page.url()).hash).toBe("");
    // The answer gets lost, and the page is loaded anew: the same is sent again, and signs in.
    await context.route("**/api/v1/sign-in", async (route) => {
      await route.fetch();
      await route.abort();
    });
    await judge.page.getByRole("button", { name: "Sign in" }).click();
    await judge.page.getByText("The server did not answer").waitFor();
    await context.unroute("**/api/v1/sign-in");
    await judge.page.reload();
    await expect.poll(() => judge.page.locator("#code").inputValue()).toBe(code.replaceAll("-", ""));
    await judge.page.getByRole("button", { name: "Sign in" }).click();
    await judge.page.waitForURL("**/judge");
    expect(sent.length).toBeGreaterThan(5);
    for (const form of [code, code.replaceAll("-", "")]) expect(sent.join()).not.toContain(form);

    const second = await visitor("phone");
    const late = await openPage(second, `/sign-in#${code}`);
    await late.page.getByRole("button", { name: "Sign in" }).click();
    await late.page
      .getByText(/This code has signed in a device already.*Ask the organiser/)
      .first()
      .waitFor();
    expect(await seriousFaults(late.page)).toEqual([]);

    // The judge's phone is told of its end before, at it, and when there is more time.
    const { badges } = (await (await page.request.get(`/api/v1${await contestPath("/badges")}`)).json()) as {
      badges: { id: string; label: string }[];
    };
    const { id } = badges.findLast(({ label }) => label === "Judge at the brook") as { id: string };
    const setEnd = async (seconds: number) => {
      const answer = await page.request.patch(`/api/v1${await contestPath(`/badges/${id}`)}`, {
        data: { endsAt: new Date(Date.now() + seconds * 1000).toISOString() },
        headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
      });
      expect(answer.ok()).toBe(true);
    };
    await judge.page.getByText("Connected: other judges").waitFor();
    await setEnd(20 * 60);
    await judge.page.getByText("Judge at the brook: this badge ends").waitFor();
    expect(await sidewaysScroll(judge.page)).toBe(0);
    await setEnd(2);
    await judge.page.getByText("Judge at the brook: this badge ended").waitFor();
    expect(await seriousFaults(judge.page)).toEqual([]);
    await setEnd(86_400);
    await expect.poll(() => judge.page.getByText(/this badge end/).count()).toBe(0);

    await page.reload();
    expect(await page.getByText(code).count()).toBe(0);
    await page.getByRole("button", { name: "Change Judge at the brook" }).click();
    await page.getByRole("button", { name: "New code for Judge at the brook" }).click();
    await page.getByRole("button", { name: "Make a new code for Judge at the brook" }).click();
    const renewed = page.locator(".notice", { hasText: "New code for Judge at the brook" });
    await late.page.goto(`/sign-in#${await renewed.locator("code").textContent()}`);
    await late.page.getByRole("button", { name: "Sign in" }).click();
    await late.page.waitForURL("**/judge");
    await second.close();
    const log = page.getByRole("table", { name: "Who signed in" });
    await page.reload();
    const tried = log.getByRole("row").filter({ hasText: "refused: the code was used before" });
    expect(await tried.first().textContent()).toContain("Judge at the brook");
    expect(await seriousFaults(page)).toEqual([]);

    await page.getByRole("button", { name: "Change Judge at the brook" }).click();
    await page.getByRole("button", { name: "Revoke Judge at the brook" }).click();
    await page.getByRole("button", { name: "Yes, revoke Judge at the brook" }).click();
    const row = page.getByRole("table", { name: "Badges" }).getByRole("row");
    await row.filter({ hasText: "Judge at the brook" }).getByText("revoked for good").waitFor();
    // There is nothing to enter with any more; what its phone may still have goes out from here.
    await judge.page.reload();
    await judge.page.getByText("This badge was revoked", { exact: true }).waitFor();
    expect(await judge.page.getByText("What happened?").count()).toBe(0);
    const standing = await judge.page.goto(await contestPath("/organise"));
    expect(standing?.status()).toBe(403);
    await context.close();
    await done();
  });
});

describe("a safety officer", () => {
  it("turns a machine, and an open map elsewhere shows the new bearing without reload", async () => {
    const { features } = await zonesOf();
    const turned = features.find(({ properties }) => properties.state === "current")?.properties;
    if (!turned) throw new Error("The demo has no machine with a zone.");
    const watcher = await openAs(null, "desk", await contestPath("/map"));
    await watcher.page.getByText("Changes show by themselves").waitFor();
    const bearing = (turned.bearing + 7) % 360;
    const { page, done } = await openAs(
      "safety-officer",
      "phone",
      await contestPath(`/machines/${turned.machineId}`),
    );
    await page.locator("#place-bearing").fill(String(bearing));
    await page.getByRole("button", { name: "Place it" }).click();
    await page.getByText(/^Placed, on bearing/).waitFor();
    const row = watcher.page
      .getByRole("table", { name: "Keep-out zones" })
      .getByRole("row")
      .filter({ hasText: turned.machineName });
    await expect
      .poll(() => row.textContent(), { timeout: 10_000 })
      .toContain(`${String(bearing).padStart(3, "0")}°`);
    // Its sheet, with what it assumes and who decides, stands on the machine's page.
    const sheet = await page.locator("article.sheet").textContent();
    expect(sheet).toMatch(/Exclusion distances/);
    expect(sheet).not.toMatch(/\bsafe\b/i);
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    await page.locator("#place-bearing").fill(String(turned.bearing));
    await page.getByRole("button", { name: "Place it" }).click();
    await expect
      .poll(
        async () => (await zonesOf()).features.find(({ id }) => id === turned.machineId)?.properties.bearing,
      )
      .toBe(turned.bearing);
    await watcher.done();
    await done();
  });

  it("must give a reason to change the policy, and the organiser may only read it", async () => {
    const { page, done } = await openAs("safety-officer", "desk", await contestPath("/organise/conditions"));
    await page.locator("#policy-margin").fill("0.5");
    await page.getByRole("button", { name: "Set the policy" }).click();
    await page.locator("#policy-margin-error").waitFor();
    expect(await page.locator("#policy-margin").inputValue()).toBe("0.5");
    expect(await page.locator("#policy-reason-error").textContent()).toMatch(/3 characters|Write something/);
    expect(await seriousFaults(page)).toEqual([]);
    await done();

    const organiser = await openAs("organiser", "phone", await contestPath("/organise/conditions"));
    expect(await organiser.page.getByRole("textbox").count()).toBe(0);
    expect(await organiser.page.getByRole("row", { name: /^Margin/ }).textContent()).toContain("1.2");
    await organiser.done();
  });

  it("rules a shot a foul and lets it stand again; the standings follow", async () => {
    const shot = (await shotsOf(2)).find(({ fix }) => fix?.outcome === "landed");
    if (!shot) throw new Error("Round 2 of the demo has no measured shot.");
    const { page, done } = await openAs("safety-officer", "phone", await contestPath("/organise/rulings"));
    const rule = async (decision: "foul" | "stands") => {
      await page.locator("#shot-subject").selectOption(shot.id);
      await page.locator("#shot-decision").selectOption(decision);
      await page.locator("#shot-reason").fill("Foot over the line, seen on the video");
      await page.getByRole("form", { name: "Rule on a shot" }).getByRole("button").click();
      await page.getByText(`Recorded: ${decision}.`).waitFor();
    };
    await rule("foul");
    const row = page.getByRole("row").filter({ hasText: `${shot.entrantNumber} ${shot.entrantName}` });
    expect(await row.textContent()).toMatch(/foul: Foot over the line/);
    expect(await seriousFaults(page)).toEqual([]);
    await rule("stands");
    await page.goto(await contestPath(`/shots/${shot.id}`));
    expect(await page.getByRole("main").textContent()).toMatch(/Ruling: stands/);
    await done();
  });
});
