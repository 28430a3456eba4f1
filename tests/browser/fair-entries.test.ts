/** A team enters itself on a phone, loses its network on the way, and the organiser takes it in at a desk. */
import sharp from "sharp";
import { afterAll, expect, it } from "vitest";
import { formToHash, linkTo } from "@/app/_ui/machine-form/form/link";
import { startingForm } from "@/app/_ui/machine-form/form/state";
import { ownContest, realFaults } from "./fair-visitors";
import { closeBrowser, openPage, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

const SLUG = "entries-fair";

it("a team enters itself on a phone with a minor and a photograph, and is accepted at a desk", async () => {
  const organiser = await visitor("desk");
  const lay = await ownContest(organiser, {
    slug: SLUG,
    name: "Entries Fair",
    date: "2031-10-04",
    latitude: 44.2,
    longitude: -31.6,
    rounds: 1,
  });
  await lay("/divisions", { name: "Open" });
  const desk = await openPage(organiser, `/contests/${SLUG}/organise/entries`);
  await desk.page.getByLabel("Entries until the end of").fill("2031-09-01");
  await desk.page.getByRole("button", { name: "Make the link" }).click();
  const link = await desk.page.getByText(/\/enter#i\./).textContent();
  expect(await seriousFaults(desk.page)).toEqual([]);

  const phone = await visitor("phone");
  const { page, faults } = await openPage(phone, (link ?? "").replace(/^https?:\/\/[^/]+/, ""));
  await page.getByRole("button", { name: "Begin our entry" }).click();
  await page.getByLabel("Team name").fill("Tin Whistle Works");
  await page.getByLabel("Division").selectOption({ label: "Open" });
  await page.getByText("All of it is kept on the server").waitFor();

  // Typed without a network it is not lost, nor by a reload.
  await phone.setOffline(true);
  await page.getByRole("button", { name: "Next: People" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Merle Ashdown");
  await page.getByLabel("Telephone or e-mail").fill("0555 0119");
  await page.getByText("On this device alone so far").waitFor();
  await phone.setOffline(false);
  await page.reload();
  await page.getByText("All of it is kept on the server").waitFor();
  await page.getByRole("button", { name: /^People/ }).click();
  expect(await page.getByLabel("Name", { exact: true }).inputValue()).toBe("Merle Ashdown");

  await page.getByRole("button", { name: "Add a person" }).click();
  const minor = page.getByRole("group", { name: "Person 2" });
  await minor.getByText("A minor").click();
  await minor.getByLabel("Name", { exact: true }).fill("Robin Ashdown");
  const robin = page.getByRole("group", { name: "Robin Ashdown" });
  await robin.getByLabel("Guardian’s name").fill("Merle Ashdown");
  await robin.getByLabel("Guardian’s telephone").fill("0555 0119");
  await robin.getByLabel(/I am Merle Ashdown, and I agree/).check();
  expect(await seriousFaults(page)).toEqual([]);

  await page.getByRole("button", { name: "Next: Insurance" }).click();
  await page.getByLabel("Insurer", { exact: true }).fill("Field Mutual");
  await page.getByLabel("Number of the policy").fill("FM-3301");
  await page.getByLabel("Valid until").fill("2031-12-31");
  await page.getByLabel(/It covers throwing/).check();
  await page.getByRole("button", { name: "Next: Machine" }).click();
  await page.getByLabel("Machine’s name").fill("Kettle Lid");
  // From the workbench, with the STOP of its practice throws.
  await page.getByText("It is on the workbench already").click();
  const stop = "hold~forward~610~215.4~2031-05-03T14:20~5~id~Kettle Lid";
  const whole = `https://field.test${linkTo("/workbench", formToHash(startingForm("metric", "measured"), [stop]))}`;
  await page.getByLabel("Its link").fill(whole.slice(0, -9));
  await page.getByRole("button", { name: "Take its numbers" }).click();
  await page.getByText("The link was not taken. It is cut off").waitFor();
  await page.getByLabel("Its link").fill(whole);
  await page.getByRole("button", { name: "Take its numbers" }).click();
  await page.getByText(/^STOP stands on practice throws: .*Kettle Lid/).waitFor();
  await page.getByLabel(/These numbers were measured on our own machine/).check();
  expect(await sidewaysScroll(page)).toBe(0);
  await page.getByRole("button", { name: "Next: Photographs" }).click();
  const buffer = await sharp({ create: { width: 400, height: 300, channels: 3, background: "#a64" } })
    .withExif({ IFD3: { GPSLatitudeRef: "N", GPSLatitude: "44/1 12/1 0/1" } })
    .jpeg()
    .toBuffer();
  await page
    .getByLabel("Choose or take photographs")
    .setInputFiles({ name: "side.jpg", mimeType: "image/jpeg", buffer });
  await page.getByRole("img", { name: "Photograph 1: the machine" }).waitFor();
  await page.getByRole("button", { name: "Next: What it will do there" }).click();
  await page.getByRole("button", { name: "Work out our hazard sheet" }).click();
  await page.getByRole("heading", { name: /^Hazard sheet: / }).waitFor();
  await page.getByRole("button", { name: "Next: What the inspector will look at" }).click();
  await page.getByText("Trigger and its safety pin").click();
  await page.getByText(/Why: .*stands where the machine will move/).waitFor();
  await page.getByRole("button", { name: "Next: Send it" }).click();
  await page.getByRole("button", { name: "Send our entry" }).click();
  await page.getByText("The organiser has your entry").waitFor();
  expect(await seriousFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(realFaults(faults)).toEqual([]);

  // Heard without a reload.
  await desk.page.getByRole("link", { name: "Tin Whistle Works" }).click();
  await desk.page.getByText("Nothing is in the way of accepting it").waitFor();
  await desk.page.getByRole("img", { name: "Photograph 1: the machine" }).waitFor();
  expect(await seriousFaults(desk.page)).toEqual([]);
  await desk.page.getByRole("button", { name: "Accept Tin Whistle Works" }).click();
  await desk.page.getByRole("region", { name: "Card of Team 1" }).waitFor();
  await desk.page.getByText(/STOP stands on practice throws/).waitFor();
  await desk.page.getByRole("link", { name: "Its machine in the contest" }).waitFor();
  await page.reload();
  await page.getByText("Tin Whistle Works is entered with Kettle Lid").waitFor();
  expect(realFaults(desk.faults)).toEqual([]);
  for (const context of [organiser, phone]) await context.close();
}, 60_000);
