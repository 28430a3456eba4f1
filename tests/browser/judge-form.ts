/** A judge's form filled in with a fix, whatever the way it was measured: by the fields that lib/survey describes. */
import type { Locator, Page } from "playwright-core";
import { type Field, type FixInput, METHODS } from "@/lib/survey";

export const save = (page: Page) => page.getByRole("button", { name: /^Save/ });

/** The element of a field of the form. */
export const fieldOf = (page: Page, id: string): Locator => page.locator(`form [id="${id}"]`);

/** `words`: what is typed in place of a number, by field, such as "150 ft 6 in". */
export async function fillFix(page: Page, fix: FixInput, words: Record<string, string> = {}): Promise<void> {
  if (fix.outcome !== "landed") {
    await page.getByRole("radio", { name: new RegExp(fix.outcome, "i") }).check();
    return;
  }
  await page.getByRole("radio", { name: "Landed" }).check();
  const method = METHODS.find((one) => one.method === fix.method);
  if (!method) throw new Error(`There is no method ${fix.method}.`);
  const choice = page.getByRole("radio", { name: method.title, exact: true });
  if (!(await choice.isVisible())) await page.getByRole("button", { name: "Other ways to measure" }).click();
  await choice.check();
  await fillFields(page, method.fields, fix as Record<string, unknown>, "", words);
}

async function fillFields(
  page: Page,
  fields: readonly Field[],
  values: Record<string, unknown>,
  path: string,
  words: Record<string, string>,
): Promise<void> {
  if (fields.some(({ name }) => name === "latitude"))
    await fieldOf(page, `${path}position`).fill(`${values.latitude}, ${values.longitude}`);
  for (const field of fields) {
    const { name } = field;
    const value = values[name];
    if (value === undefined || name === "latitude" || name === "longitude") continue;
    if (field.type === "list") {
      const rows = value as Record<string, unknown>[];
      for (let more = rows.length - field.fewest; more > 0; more--)
        await page.getByRole("button", { name: "One more" }).click();
      for (const [index, row] of rows.entries())
        await fillFields(page, field.fields, row, `${path}${name}.${index}.`, words);
      continue;
    }
    const place = fieldOf(page, path + name);
    await unfold(place);
    if (field.type === "number") await place.fill(words[path + name] ?? String(value));
    else await place.selectOption(String(value));
  }
}

/** What may be left as it usually is lies folded away. */
async function unfold(place: Locator): Promise<void> {
  const folded = place.locator("xpath=ancestor::details[not(@open)]/summary");
  if (await folded.count()) await folded.click();
}
