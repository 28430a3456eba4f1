/** A machine on the bench: copied, changed, compared, kept; then handed on by link, file, paper and into a contest. */
import { readFileSync } from "node:fs";
import { afterAll, expect, it } from "vitest";
import { openAs, overviewOf } from "./fair-visitors";
import { closeBrowser, openPage, realFaults, seriousFaults, sidewaysScroll, visitor } from "./support";

afterAll(closeBrowser);

it("a revision is copied and changed on a phone, stands beside the first, and a reload keeps both", async () => {
  const context = await visitor("phone");
  const { page, faults } = await openPage(context, "/workbench");
  await page.locator("#bench-name").fill("Loud Uncle");
  await page.getByRole("button", { name: "Copy into a new revision" }).click();
  await page.locator("#revision-name").fill("Longer sling");
  const sling = page.getByLabel("Sling length", { exact: false }).first();
  await sling.fill("15 ft");
  await page.getByRole("rowheader", { name: "Throw as meant" }).waitFor();
  const compared = page.getByRole("table", { name: /What the revisions throw/ });
  await expect
    .poll(() => compared.getByRole("row", { name: /Sling length/ }).textContent(), { timeout: 10_000 })
    .toMatch(/4\.57/);
  await expect
    .poll(() => compared.getByRole("row", { name: /Throw as meant/ }).textContent(), { timeout: 10_000 })
    .toMatch(/\d m.*\d m/);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await seriousFaults(page)).toEqual([]);
  await page.reload();
  await expect.poll(() => page.locator("#bench-name").inputValue()).toBe("Loud Uncle");
  expect(await page.locator("#bench-revision option").allTextContents()).toEqual([
    "1. As built",
    "2. Longer sling",
  ]);
  expect(realFaults(faults)).toEqual([]);
  await context.close();
});

it("a machine goes on as a file and as a link, and a broken file changes nothing", async () => {
  const context = await visitor("desk", { acceptDownloads: true });
  const { page } = await openPage(context, "/workbench");
  await page.locator("#bench-name").fill("Windfall");
  await page.locator("#revision-name").fill("For the fair");
  await page.getByRole("link", { name: "Share", exact: true }).click();
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the machine as a file" }).click();
  const saved = await download;
  expect(saved.suggestedFilename()).toBe("windfall.fairthrow.json");
  const text = readFileSync(await saved.path(), "utf8");
  expect(JSON.parse(text)).toMatchObject({ format: "fairthrow-machine", version: 1, name: "Windfall" });
  expect(await seriousFaults(page)).toEqual([]);
  await page.emulateMedia({ media: "print" });
  const pdf = await page.pdf({ format: "A4", printBackground: true });
  expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(2);
  await context.close();

  const other = await visitor("phone");
  const { page: phone } = await openPage(other, "/workbench/share");
  phone.on("dialog", (dialog) => dialog.accept());
  const give = (content: string) =>
    phone.locator('input[type="file"]').setInputFiles({
      name: "given.json",
      mimeType: "application/json",
      buffer: Buffer.from(content),
    });
  await give(text.slice(0, 200));
  await phone.getByText("The file is no JSON, or is cut off.").waitFor();
  await give(text);
  await phone.getByText("given.json is on the bench.").waitFor();
  expect(await sidewaysScroll(phone)).toBe(0);
  expect(await seriousFaults(phone)).toEqual([]);
  await phone.goto("/workbench#kind=measured&machine.releaseSpeed=31&machine.launchAngle=40");
  await phone.reload();
  await expect
    .poll(() => phone.locator("#bench-revision option").allTextContents())
    .toEqual(["1. For the fair", "2. From a link"]);
  await other.close();
});

it("a team declares the revision on its bench in its contest with one tap", async () => {
  const { page, done } = await openAs("team", "phone", "/workbench");
  const before = await overviewOf();
  await page.locator("#revision-name").fill("Shorter arm");
  await page.getByRole("link", { name: "Share", exact: true }).click();
  await page.getByRole("button", { name: "Declare “Shorter arm”" }).click();
  await page.getByText("Declared. Its official hazard sheet").waitFor();
  const after = await overviewOf();
  const changed = after.machines.filter(
    ({ id, revision }) => revision !== before.machines.find((each) => each.id === id)?.revision,
  );
  expect(changed).toHaveLength(1);
  expect(changed[0]?.kind).toBe("hinged-counterweight");
  await done();
});
