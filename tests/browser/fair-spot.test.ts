/**
 * Two spotters at their posts, one of them without a network, and a walker who is led to where their bearings cross;
 * then the judge, whose form has them.
 */
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { ContestOverview, ShotInfo } from "@/lib/api/contracts";
import { direct } from "@/lib/earth";
import { contestPath, newTestKey, openAs, overviewOf, realFaults, shotsOf, signIn } from "./fair-visitors";
import {
  closeBrowser,
  inWholeChromium,
  openPage,
  programUrl,
  seriousFaults,
  sidewaysScroll,
  visitor,
} from "./support";

inWholeChromium();
afterAll(closeBrowser);

let up: ShotInfo;
let firingPoint: ContestOverview["firingPoints"][number];
let declination: number;

/** Posts 80 m to the north of the firing point, and 80 m east of that: they see (80 m, 090°) on 135° and 180°. */
beforeAll(async () => {
  const contest = await overviewOf();
  declination = contest.declination;
  const shot = (await shotsOf()).find(({ fix }) => fix === null);
  const point = contest.firingPoints.find(({ id }) => id === shot?.firingPointId);
  if (!shot || !point) throw new Error("The demo's last round has no shot left to sight.");
  [up, firingPoint] = [shot, point];
  const organiser = await visitor("desk");
  await signIn(organiser, "organiser");
  const corner = direct(point, 0, 80);
  for (const [name, at] of [
    ["North post", corner],
    ["East post", direct(corner, 90, 80)],
  ] as const) {
    const answer = await organiser.request.post(`/api/v1${await contestPath("/control-points")}`, {
      data: { name, ...at, height: point.height, accuracy: 0.1 },
      headers: { "Idempotency-Key": newTestKey(), Origin: programUrl() },
    });
    expect(answer.ok(), await answer.text()).toBe(true);
  }
  await organiser.close();
});

const bearingIn = async (page: Page) => Number(await page.locator("#sight-bearing").inputValue());
const stand = (context: BrowserContext, bearing: number, distance: number) =>
  context.setGeolocation({ ...direct(firingPoint, bearing, distance), accuracy: 5 });
/** The distance in very large figures, m. */
const far = async (page: Page) =>
  Number(
    /^(\d+) m$/.exec(
      (await page
        .getByText(/^\d+ m$/)
        .first()
        .textContent()) ?? "",
    )?.[1],
  );

async function spotter(post: string) {
  const opened = await openAs("judge", "phone", await contestPath("/spot"));
  const { page } = opened;
  await page.getByText("Connected:").waitFor();
  await page.getByRole("button", { name: post, exact: true }).tap();
  await page.getByText(`Your post: ${post}`).waitFor();
  expect(await page.getByRole("heading", { level: 2 }).first().textContent()).toContain(up.entrantName);
  return opened;
}

/** A compass that points so, degrees from magnetic north, as Android tells it. */
const point = (page: Page, bearing: number) =>
  page.evaluate((alpha) => {
    const sensor = window as unknown as { sensor?: ReturnType<typeof setInterval> };
    clearInterval(sensor.sensor);
    sensor.sensor = setInterval(
      () =>
        dispatchEvent(
          new DeviceOrientationEvent("deviceorientationabsolute", {
            alpha,
            beta: 10,
            gamma: 0,
            absolute: true,
          }),
        ),
      50,
    );
  }, 360 - bearing);

describe("two spotters and a walker", () => {
  it("meet where the bearings cross, though one spotter had no network", async () => {
    const walker = await visitor("phone", { permissions: ["geolocation"] });
    await stand(walker, 90, 20);
    const walk = await openPage(walker, await contestPath("/splash"));
    await walk.page.getByText("wait until the range is cold").waitFor();
    await walk.page.getByText("Connected:").waitFor();
    const [north, east] = [await spotter("North post"), await spotter("East post")];

    // The first by the phone's compass, which counts from magnetic north.
    await north.page.getByText("Compass", { exact: true }).tap();
    await north.page.getByRole("button", { name: "Start the compass" }).tap();
    await point(north.page, 135 - declination);
    const send = north.page.getByRole("button", { name: /^Send \d+/ });
    await send.waitFor();
    expect(await seriousFaults(north.page)).toEqual([]);
    expect(await sidewaysScroll(north.page)).toBe(0);
    await send.tap();
    await north.page.getByRole("heading", { name: "Sent" }).waitFor();
    await walk.page.getByText("Only North post has seen it so far").waitFor();

    // The second without a network, its page opened anew, by the dial and its keys.
    await east.page.getByText(/open from this phone/).waitFor();
    await east.context.setOffline(true);
    await east.page.reload();
    await east.page.getByText("Your post: East post").waitFor();
    await east.page.getByText("Dial", { exact: true }).tap();
    const dial = east.page.getByRole("slider", { name: "Bearing of the splash" });
    await dial.scrollIntoViewIfNeeded();
    const box = await dial.boundingBox();
    if (!box) throw new Error("There is no dial.");
    await east.page.touchscreen.tap(box.x + box.width / 2, box.y + box.height * 0.9);
    expect(await bearingIn(east.page)).toBe(180);
    await dial.focus();
    await east.page.keyboard.press("PageUp");
    await east.page.keyboard.press("ArrowLeft");
    expect(await dial.getAttribute("aria-valuetext")).toBe("189°, south");
    expect(await seriousFaults(east.page)).toEqual([]);
    expect(await sidewaysScroll(east.page)).toBe(0);
    await east.page.locator("#sight-bearing").fill("400");
    await east.page
      .getByText(/from 0 to 360/)
      .first()
      .waitFor();
    await east.page.locator("#sight-bearing").fill("180");
    await east.page.getByRole("button", { name: "Send 180° from East post" }).tap();
    await east.page.getByRole("heading", { name: "Kept on this phone, not sent yet" }).waitFor();
    await east.page.getByText("1 entry is on this phone").waitFor();
    expect(await walk.page.getByText("Only North post has seen it so far").isVisible()).toBe(true);
    await east.page.close();

    // The page is opened again where there is a network: late, it counts when it arrives. 80 m on 090° from the firing
    // point, and the walker is 20 m along.
    await east.context.setOffline(false);
    const later = await openPage(east.context, await contestPath("/spot"));
    await later.page.getByText("All that was entered here is at the server").waitFor();
    // The next shot is up for this post, though no judge has entered the one that it saw.
    const shotUp = later.page.getByRole("heading", { level: 2 }).first();
    await expect.poll(() => shotUp.textContent()).not.toContain(up.entrantName);
    await walk.page.getByText("It lies to the").waitFor();
    expect(await far(walk.page)).toBe(60);
    const main = walk.page.locator("main");
    expect(await main.textContent()).toMatch(/It lies to the east, 090°/);
    await walk.page
      .getByRole("row", { name: new RegExp(`Firing point ${firingPoint.number}.*80 m.*090°`) })
      .waitFor();
    await walk.page.getByRole("row", { name: /Peg East post.*80 m.*180°/ }).waitFor();
    await walk.page.locator('[data-ready="yes"]').waitFor();
    expect(await seriousFaults(walk.page)).toEqual([]);
    expect(await sidewaysScroll(walk.page)).toBe(0);

    // Near enough that both accuracies hide the rest; then with the network gone and the page opened anew.
    await stand(walker, 90, 78);
    await walk.page.getByText("Look about here").waitFor();
    await walk.page.getByText(/opens from this phone/).waitFor();
    await walker.setOffline(true);
    await stand(walker, 90, 30);
    await walk.page.reload();
    await walk.page.getByText("Not connected.").waitFor();
    await walk.page.getByText("It lies to the").waitFor();
    expect(await far(walk.page)).toBe(50);
    await walker.setOffline(false);
    await walk.page.getByText("Connected:").waitFor();

    // A correction moves it at once: 5° more are 15 m farther along the line that the east post sees.
    await north.page.getByRole("button", { name: "Sight it anew" }).tap();
    await north.page.getByText("Dial", { exact: true }).tap();
    await north.page.locator("#sight-bearing").fill("140");
    await north.page.getByRole("button", { name: "Send 140° from North post" }).tap();
    await north.page.getByText(/Seen from 2 posts: about/).waitFor();
    await expect.poll(() => main.textContent()).not.toContain("east, 090°");

    expect(realFaults([...walk.faults, ...north.faults, ...east.faults, ...later.faults])).toEqual([]);
    await Promise.all([walker.close(), north.done(), east.done()]);
  });

  it("are in the judge's form, which says so and takes changes", async () => {
    const { page, faults, done } = await openAs("judge", "phone", await contestPath("/judge"));
    await page.getByText("Connected:").waitFor();
    await page.getByRole("radio", { name: "Landed" }).check();
    await page.getByRole("button", { name: "Other ways to measure" }).click();
    await page.getByRole("radio", { name: "Two spotters or more" }).check();
    await page.getByText("Filled in from the spotters").waitFor();
    const [east, north] = ["bearings.0.bearing", "bearings.1.bearing"].map((id) =>
      page.locator(`[id="${id}"]`),
    );
    expect([await east?.inputValue(), await north?.inputValue()]).toEqual(["180", "140"]);
    await page.getByText(/rough place to walk to: measure the landing point there/).waitFor();
    await north?.fill("135");
    await expect.poll(() => page.locator("output").textContent()).toMatch(/Mark from.*(79|80)\.\d\d m/);
    await page.getByRole("button", { name: "Fill in these bearings" }).click();
    expect(await north?.inputValue()).toBe("140");
    expect(await seriousFaults(page)).toEqual([]);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(realFaults(faults)).toEqual([]);
    await done();
  });
});
