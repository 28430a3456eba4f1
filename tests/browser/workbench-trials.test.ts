/** Practice throws: written down on a phone, what they say, a film stepped through, and what broke. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, expect, it } from "vitest";
import { closeBrowser, openPage, seriousFaults, sidewaysScroll, visitor } from "./support";
import FILM from "./throw-film.json";

afterAll(closeBrowser);

const eventually = (read: () => Promise<unknown>) => expect.poll(read, { timeout: 20_000 });
const KEY = "fairthrow-trials";
const told = (page: Page, what: string) => page.locator(`[data-told=${what}]`);

async function wellMade(page: Page) {
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
}

/** A throw at a setting, as a thumb enters it. */
async function write(page: Page, distance: string, setting?: string) {
  if (setting) await page.locator("#throw-setting").fill(setting);
  await page.locator("#throw-distance").fill(distance);
  await page.getByRole("button", { name: "Write it down", exact: true }).click();
}

it("throws are written down on a phone with the network gone, corrected, removed and kept; they calibrate the machine", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/workbench/trials");
  await page.getByRole("heading", { name: "Write down a throw" }).waitFor();
  await page.getByText("throw while no zone is of these numbers").waitFor();
  await page.getByText("Without a network the workbench opens from this device.").waitFor();
  await context.setOffline(true);
  await page.locator("#throw-windSpeed").fill("0");
  // Setting, mass and wind are proposed from here on: one number and one button.
  await write(page, "92 m", "36");
  await write(page, "91");
  await write(page, "94", "40");
  await write(page, "60 m", "28");
  const row = (name: RegExp) =>
    page.getByRole("table", { name: "Throws, the newest first" }).getByRole("row", { name });
  await row(/4\. 60\.0 m/).waitFor();
  expect(await row(/3\. 94\.0 m/).textContent()).toContain("Release angle 40°");
  await row(/4\. 60\.0 m/)
    .getByRole("button", { name: "Correct" })
    .click();
  await page.locator("#throw-distance").fill("88");
  await page.getByRole("button", { name: "Write the correction" }).click();
  await row(/4\. 88\.0 m/)
    .getByText(/before: distance 60\.0 m/)
    .waitFor();

  await eventually(async () => told(page, "efficiency").textContent()).toMatch(/Efficiency \d\.\d+ ± 0\.\d+/);
  await eventually(async () => told(page, "next").textContent()).toMatch(/^Set the release angle to \d/);
  // All is judged and quiet: a throw goes without a word.
  await row(/3\. 94\.0 m/)
    .getByRole("button", { name: "Remove" })
    .click();
  await page.getByText("Throw 3 (94.0 m) is removed.").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await row(/3\. 94\.0 m/).waitFor();
  await page.getByRole("radio", { name: "A mark", exact: true }).check();
  await page.getByText("Mark at: ").waitFor();
  await page.locator("#next-mark").fill("90 m");
  await eventually(async () => told(page, "next").textContent()).toMatch(/it lands at 90\.0 m\./);
  await page.locator("#next-mark").fill("900 m");
  await page.getByText("No setting in this range lands there").waitFor();
  await wellMade(page);

  // Far beyond the others: an alarm, and no next setting until somebody knows why.
  await write(page, "118", "36");
  await page.getByText("STOP, a throw went too far").waitFor();
  await page.getByText("None while STOP stands").waitFor();
  await write(page, "300");
  await page.getByText("STOP: the model is wrong").waitFor();
  expect(await page.getByRole("button", { name: "Undo" }).count()).toBe(0);

  // It stands above the other pages, offline, and when the machine is another by a hair.
  const tools = page.getByRole("navigation", { name: "Workbench" });
  await tools.getByRole("link", { name: "Machine", exact: true }).click();
  await page.getByText("The numbers on the bench are others").waitFor({ state: "detached" });
  await page.locator("#field-machine-slingLength").fill("3.51 m");
  await page.getByText("The numbers on the bench are others").waitFor();
  await wellMade(page);
  await page.getByRole("link", { name: /^Throw 6 of .* 300 m ahead/ }).click();
  await page.getByRole("heading", { name: /^STOP by throw 6: 300 m/ }).waitFor();
  await wellMade(page);

  // A throw is struck out with a reason, an alarm is answered with one: both stay to be read.
  await page.getByRole("button", { name: "Strike out throw 6" }).click();
  await page.getByRole("button", { name: "Strike it out" }).click();
  await page.getByText("say it in a few words").waitFor();
  await page.getByLabel(/^Why throw 6/).fill("the tape was read at the wrong end");
  await page.getByRole("button", { name: "Strike it out" }).click();
  await page.getByText("STOP: the model is wrong").waitFor({ state: "detached" });
  await row(/6\. 300 m/)
    .getByText("the tape was read at the wrong end")
    .waitFor();
  await page.getByLabel("What was found, and what was done").fill("a pouch of another make; taken off");
  await page.getByRole("button", { name: /STOP no longer stands/ }).click();
  await page.getByText("STOP, a throw went too far").waitFor({ state: "detached" });
  await row(/5\. 118 m/)
    .getByText("a pouch of another make")
    .waitFor();

  // What is typed and not written down is there again.
  await page.locator("#throw-distance").fill("95 m");

  await page.getByRole("button", { name: /US customary/ }).click();
  await eventually(() => row(/1\. 302 ft/).count()).toBe(1);
  await page.reload();
  await page.locator("#trials-machine").selectOption({ index: 1 });
  await row(/6\. 984 ft/).waitFor();
  await page.getByText("This throw was typed before").waitFor();
  await context.setOffline(false);
  // Without a network a page opens from the phone, after the try that fails.
  const offline = /ERR_INTERNET_DISCONNECTED|^Failed to fetch RSC payload|ERR_FAILED .*\/icon\.svg$/;
  expect(faults.filter((fault) => !offline.test(fault))).toEqual([]);

  // What cannot be read is told and left alone.
  await page.evaluate((key) => localStorage.setItem(key, "{cut"), KEY);
  await page.reload();
  await page.getByText("The throws that this browser kept cannot be read").waitFor();
  expect(await page.evaluate((key) => localStorage.getItem(key), KEY)).toBe("{cut");
  await page.getByRole("button", { name: "Put it aside and begin a new log" }).click();
  await page.getByText("No throw of this machine has been written down yet.").waitFor();
  expect(await page.evaluate((key) => localStorage.getItem(`${key}-set-aside`), KEY)).toBe("{cut");
  await context.close();
});

it("at a desk: a changed revision keeps its old throws apart, CSV carries them, and a broken part is explained", async () => {
  const context = await visitor("desk", { acceptDownloads: true });
  const { page, faults } = await openPage(context, "/workbench/trials");
  await write(page, "92");
  await page.getByRole("radio", { name: "Something broke" }).check();
  await page.locator("#throw-distance").fill("");
  await page.getByRole("button", { name: "Write it down", exact: true }).click();
  await page.getByText("1 throw is left out of it").waitFor();
  await page.getByText("Warning: something broke").waitFor();

  await page.getByText("Write down a piece and where it was found").click();
  await page.locator("#piece-part").selectOption("arm");
  await page.locator("#landing-distance").fill("12 m");
  await page.locator("#landing-direction").fill("10");
  await page.getByRole("radio", { name: "A part of the machine" }).check();
  await page.getByRole("button", { name: "Write it down and find what explains it" }).click();
  await told(page, "explained").waitFor({ timeout: 30_000 });
  expect(await told(page, "explained").textContent()).toMatch(/Hold the range|Nothing explains it/);
  expect(await page.getByRole("link", { name: "What may break: arm" }).getAttribute("href")).toBe(
    "/workbench/strength#part-arm",
  );
  await wellMade(page);

  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save all throws as CSV" }).click();
  const csv = readFileSync(await (await download).path(), "utf8");
  expect(csv).toContain("setting releaseAngle [°]");
  // The revision is changed: what was thrown before stays with its own numbers.
  await page.goto("/workbench");
  await page.getByLabel("Sling length", { exact: false }).first().fill("15 ft");
  await page
    .getByRole("navigation", { name: "Workbench" })
    .getByRole("link", { name: "Practice throws" })
    .click();
  await page.getByText("No throw of this machine has been written down yet.").waitFor();
  expect(await page.locator("#trials-machine option").allTextContents()).toHaveLength(2);

  await page.evaluate((key) => localStorage.removeItem(key), KEY);
  await page.reload();
  const give = (text: string) =>
    page
      .getByLabel("File of throws")
      .setInputFiles({ name: "given.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Read throws from CSV" }).waitFor();
  await give(csv.replace(",92,", ",far,"));
  await page.getByText("“distance [m]” is no number: far.").waitFor();
  await give(csv);
  await page.getByText("2 throws of given.csv are written down.").first().waitFor();
  await page.locator("#trials-machine").selectOption({ index: 1 });
  await page.getByRole("heading", { name: "2 throws" }).waitFor();

  // A browser that keeps no more says so.
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await write(page, "300");
  await page.getByText("Not kept: the practice throws", { exact: true }).waitFor();
  await page.getByRole("heading", { name: "3 throws" }).waitFor();
  await page.getByRole("navigation", { name: "Workbench" }).getByRole("link", { name: "Share" }).click();
  await page.getByRole("heading", { name: "On paper" }).waitFor();
  await page.getByText("STOP: the model is wrong").waitFor();
  expect(faults).toEqual([]);
  await context.close();
});

/** A ball that leaves a place at a speed and an angle, filmed by tests/runner/film.mjs. */
const film = readFileSync(new URL("throw.webm", import.meta.url));

function there<T>(value: T | null): T {
  if (value === null) throw new Error("It is not on the page.");
  return value;
}

/** Where the ball is in the frame that is shown, px of the film. */
const ballIn = (page: Page): Promise<[number, number]> =>
  page.evaluate(() => {
    const video = document.querySelector("video") as HTMLVideoElement;
    const canvas = Object.assign(document.createElement("canvas"), {
      width: video.videoWidth,
      height: video.videoHeight,
    });
    const brush = canvas.getContext("2d") as CanvasRenderingContext2D;
    brush.drawImage(video, 0, 0);
    const { data } = brush.getImageData(0, 0, canvas.width, canvas.height);
    let [sum, x, y] = [0, 0, 0];
    for (let i = 0; i < data.length; i += 4) {
      const red = (data[i] as number) - (data[i + 1] as number);
      if (red < 90) continue;
      sum += 1;
      x += (i / 4) % canvas.width;
      y += Math.floor(i / 4 / canvas.width);
    }
    return [x / sum + 0.5, y / sum + 0.5] as [number, number];
  });

it("a film of the device is stepped through and tapped: speed and direction of the release, written into the throw", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/workbench/trials");
  await write(page, "92");
  const sent: string[] = [];
  page.on("request", (request) => void (request.method() === "GET" || sent.push(request.url())));
  await page
    .getByLabel("Film", { exact: true })
    .setInputFiles({ name: "throw.webm", mimeType: "video/webm", buffer: film });
  const stage = page.getByRole("application");
  await told(page, "frame").waitFor({ timeout: 15_000 });
  await page.getByText(/^It plays|cannot be measured here/).waitFor();
  // It plays three times slower than true.
  await page.getByRole("radio", { name: /^In slow motion/ }).check();
  await page.locator("#film-plays").fill("10");
  await page.locator("#film-filmed").fill("30");
  await page.locator("#film-length").fill("2 m");
  await page.getByText("How the camera stood and how well all is known").click();
  await page.locator("#film-tap").fill("1");
  const tap = async ([x, y]: readonly [number, number], keys: readonly string[] = []) => {
    await stage.scrollIntoViewIfNeeded();
    const box = there(await page.locator("video").boundingBox());
    await page.mouse.click(box.x + (x / FILM.width) * box.width, box.y + (y / FILM.height) * box.height);
    for (const key of [...keys, "Enter"]) await page.keyboard.press(key);
  };
  await tap([80, 100]);
  await tap([110, 220]);
  await tap([210, 220]);
  const frame = async () => Number.parseFloat((await told(page, "frame").textContent())?.slice(9) ?? "");
  const step = async () => {
    const before = await frame();
    await page.getByRole("button", { name: "+1 frame", exact: true }).click();
    await eventually(frame).toBeGreaterThan(before);
  };
  let ball = await ballIn(page);
  while (Math.hypot(ball[0] - FILM.x, ball[1] - FILM.y) < 2.5) {
    await step();
    ball = await ballIn(page);
  }
  await page.getByRole("button", { name: "−1 frame", exact: true }).click();
  await eventually(async () => Math.abs((await ballIn(page))[0] - FILM.x) < 2.5).toBe(true);
  await page.getByRole("button", { name: "The loop surely holds up to this frame" }).click();
  await page.getByText("Tapped frames: 0").click();
  // Keys move the cross as a finger does.
  await tap([80, 153], ["ArrowUp", "ArrowUp", "ArrowUp", "Shift+ArrowLeft", "Shift+ArrowRight"]);
  await page
    .getByRole("table", { name: "Tapped frames" })
    .getByText(/^(79|80|81), (149|150|151)$/)
    .waitFor();
  const held = await frame();
  await tap(await ballIn(page));
  await eventually(frame).toBeGreaterThan(held);
  await page.getByRole("button", { name: "The loop has surely slipped from this frame on" }).click();
  await tap([80, 150]);
  for (let point = 0; point < 8; point++) {
    const at = await frame();
    await tap(await ballIn(page));
    await eventually(frame).toBeGreaterThan(at);
  }
  const release = (await told(page, "release").textContent()) ?? "";
  const [, speed, , angle] = /([\d.]+) ± ([\d.]+) m\/s at ([\d.]+) ± [\d.]+°/.exec(release) ?? [];
  expect(Number(speed), release).toBeGreaterThan(5.5);
  expect(Number(speed), release).toBeLessThan(6.5);
  expect(Math.abs(Number(angle) - FILM.angle), release).toBeLessThan(5);
  expect(release).toContain("The sling stood at");
  await eventually(() => told(page, "against-model").count()).toBe(1);
  await wellMade(page);
  await page.getByRole("button", { name: "Write the release into throw 1" }).click();
  await page.getByText("The release is written into the throw.").waitFor();
  expect(await page.getByRole("table", { name: "Throws, the newest first" }).textContent()).toContain(
    "m/s at",
  );
  // Nothing of the film has left the device.
  expect(sent).toEqual([]);
  expect(faults).toEqual([]);
  await context.close();
});
