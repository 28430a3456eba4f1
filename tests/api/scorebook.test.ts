/** The scorebook's chain under parallel writes, and what verifying finds. Hashes are recomputed here from the standards. */
import { createHash } from "node:crypto";
import { afterEach, beforeAll, expect, test } from "vitest";
import { allSheets } from "@/lib/contest";
import { engine } from "@/tests/database";
import { expecting, type Fair, newFair } from "./fair";

let fair: Fair;

beforeAll(async () => {
  fair = await newFair();
  // So that the program itself adds nothing between two readings.
  await allSheets(fair.db, fair.contestId);
});

const verify = async () => (await expecting(200, "GET", `${fair.base}/scorebook?verify=1`)).verification;

async function allEntries() {
  const entries = [];
  for (let next: number | null = 1e9; next !== null; ) {
    const page = await expecting(200, "GET", `${fair.base}/scorebook?limit=7&before=${next}`);
    entries.push(...page.entries);
    next = page.next;
  }
  return entries.reverse();
}

test("twenty writes at once each get their own place in the chain", async () => {
  const before = (await verify()).entries;
  const answers = await Promise.all(
    Array.from({ length: 20 }, (_, index) => fair.lay("POST", "/divisions", { name: `Parallel ${index}` })),
  );
  expect(new Set(answers.map((answer) => answer.id)).size).toBe(20);
  const verification = await verify();
  expect(verification).toMatchObject({ holds: true, brokenAt: null });
  expect(verification.entries).toBeGreaterThanOrEqual(before + 20);
});

test("the chain is SHA-256 over the previous hash, a line feed and the body, and the body is canonical", async () => {
  const entries = await allEntries();
  let previous = "0".repeat(64);
  for (const [index, entry] of entries.entries()) {
    expect(entry.sequence).toBe(index + 1);
    expect(entry.previousHash).toBe(previous);
    expect(entry.hash).toBe(createHash("sha256").update(`${previous}\n${entry.body}`, "utf8").digest("hex"));
    const body = JSON.parse(entry.body);
    // RFC 8785, 3.2.3: members sorted by their UTF-16 code units, no white space.
    const keys = Object.keys(body);
    expect(keys).toEqual([...keys].sort());
    expect(JSON.stringify(body)).toBe(entry.body);
    previous = entry.hash;
  }
  expect((await verify()).head).toBe(previous);
});

test("names of teams and machines stay out of it", async () => {
  const text = JSON.stringify(await allEntries());
  expect(text).not.toContain("Team 1");
  expect(text).not.toContain("Machine 1");
});

test("the database itself lets no entry be changed or deleted", async () => {
  const { db, contestId } = fair;
  const where = { contestId_sequence: { contestId, sequence: 3 } };
  await expect(db.scorebookEntry.update({ where, data: { act: "nothing" } })).rejects.toThrow();
  await expect(db.scorebookEntry.delete({ where })).rejects.toThrow();
  expect((await verify()).holds).toBe(true);
});

// What someone who may drop the database's own guards might do, each undone afterwards.
let undo: (() => Promise<unknown>) | null = null;
async function dropGuards(): Promise<void> {
  const statements =
    engine === "sqlite"
      ? ["update", "delete"].map((what) => `DROP TRIGGER IF EXISTS "ScorebookEntry_no_${what}"`)
      : ['ALTER TABLE "ScorebookEntry" DISABLE TRIGGER "ScorebookEntry_append_only"'];
  for (const statement of statements) await fair.db.$executeRawUnsafe(statement);
}
afterEach(async () => {
  await undo?.();
  undo = null;
});

test("a changed body, a changed column and a missing entry are found and named", async () => {
  const { db, contestId } = fair;
  await dropGuards();
  const where = { contestId_sequence: { contestId, sequence: 5 } };
  const entry = await db.scorebookEntry.findUniqueOrThrow({ where });
  undo = () => db.scorebookEntry.upsert({ where, create: entry, update: entry });

  await db.scorebookEntry.update({ where, data: { body: entry.body.replace(/"at":"2/, '"at":"3') } });
  expect(await verify()).toMatchObject({ holds: false, brokenAt: 5 });

  await db.scorebookEntry.update({ where, data: { body: entry.body, subjectId: "someone-else" } });
  expect(await verify()).toMatchObject({ holds: false, brokenAt: 5 });

  await db.scorebookEntry.delete({ where });
  expect(await verify()).toMatchObject({ holds: false, brokenAt: 5 });
});

test("an entry rewritten with a fitting hash breaks the one after it", async () => {
  const { db, contestId } = fair;
  await dropGuards();
  const where = { contestId_sequence: { contestId, sequence: 4 } };
  const entry = await db.scorebookEntry.findUniqueOrThrow({ where });
  undo = () => db.scorebookEntry.update({ where, data: entry });
  const body = entry.body.replace("{", '{"added":true,');
  const hash = createHash("sha256").update(`${entry.previousHash}\n${body}`).digest("hex");
  await db.scorebookEntry.update({ where, data: { body, hash } });
  expect(await verify()).toMatchObject({ holds: false, brokenAt: 5 });
});

test("a page that cannot be is refused with the field", async () => {
  const problem = await expecting(422, "GET", `${fair.base}/scorebook?limit=0`);
  expect(problem.errors[0].field).toBe("limit");
});
