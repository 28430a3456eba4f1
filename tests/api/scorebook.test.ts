/** The scorebook's chain under parallel writes, and what verifying finds. Hashes are recomputed here from the standards. */
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeAll, expect, test } from "vitest";
import { allSheets, checkScorebook, type Head, headLine, roundHeads } from "@/lib/contest";
import { verify } from "@/lib/launch/verify";
import { engine } from "@/tests/database";
import { bearingFix, expecting, type Fair, newFair, send } from "./fair";

let fair: Fair;

beforeAll(async () => {
  fair = await newFair();
  // So that the program itself adds nothing between two readings.
  await allSheets(fair.db, fair.contestId);
});

const chain = async () => (await expecting(200, "GET", `${fair.base}/scorebook?verify=1`)).verification;

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
  const before = (await chain()).entries;
  const answers = await Promise.all(
    Array.from({ length: 20 }, (_, index) => fair.lay("POST", "/divisions", { name: `Parallel ${index}` })),
  );
  expect(new Set(answers.map((answer) => answer.id)).size).toBe(20);
  const verification = await chain();
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
  expect((await chain()).head).toBe(previous);
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
  expect((await chain()).holds).toBe(true);
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
  expect(await chain()).toMatchObject({ holds: false, brokenAt: 5 });

  await db.scorebookEntry.update({ where, data: { body: entry.body, subjectId: "someone-else" } });
  expect(await chain()).toMatchObject({ holds: false, brokenAt: 5 });

  await db.scorebookEntry.delete({ where });
  expect(await chain()).toMatchObject({ holds: false, brokenAt: 5 });
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
  expect(await chain()).toMatchObject({ holds: false, brokenAt: 5 });
});

test("a chain rewritten whole, or cut off, holds in itself and is found by a printed head alone", async () => {
  const { db, contestId, slug } = fair;
  const entries = await allEntries();
  const last = entries.at(-1);
  const lines: string[] = [];
  const printed = [
    `${last.sequence}: ${last.hash
      .slice(0, 16)
      .toUpperCase()
      .replace(/(.{4})/g, "$1 ")}`,
  ];
  const verified = async (heads: string[]) => {
    lines.length = 0;
    const args = ["--contest", slug, ...heads.flatMap((head) => ["--head", head])];
    return verify(args, (line) => lines.push(line));
  };
  expect(await verified(printed)).toBe(true);
  expect(lines.join("\n")).toContain(`Entry ${last.sequence} is as printed`);

  // Its end is cut off.
  await dropGuards();
  const where = { contestId_sequence: { contestId, sequence: last.sequence } };
  const row = await db.scorebookEntry.findUniqueOrThrow({ where });
  const rows = await db.scorebookEntry.findMany({ where: { contestId, sequence: { gte: 3 } } });
  undo = async () => {
    await db.scorebookEntry.deleteMany({ where: { contestId, sequence: { gte: 3 } } });
    await db.scorebookEntry.createMany({ data: rows });
  };
  await db.scorebookEntry.delete({ where });
  expect(await verified([])).toBe(true);
  expect(lines.join("\n")).toContain(
    "cannot find:\n- a chain that was rewritten whole, or cut off at its end",
  );
  expect(await verified(printed)).toBe(false);
  expect(lines.join("\n")).toContain(`ENTRY ${last.sequence} WAS PRINTED AND IS NOT HERE`);
  await db.scorebookEntry.create({ data: row });

  // One word in entry 3, and every hash after it made to fit.
  let previous = entries[1].hash;
  for (const one of rows.sort((a, b) => a.sequence - b.sequence)) {
    const body = one.sequence === 3 ? one.body.replace("{", '{"added":true,') : one.body;
    const hash = createHash("sha256").update(`${previous}\n${body}`).digest("hex");
    const where = { contestId_sequence: { contestId, sequence: one.sequence } };
    await db.scorebookEntry.update({ where, data: { body, hash, previousHash: previous } });
    previous = hash;
  }
  expect(await verified([])).toBe(true);
  expect(await verified(printed)).toBe(false);
  expect(lines.join("\n")).toContain(`ENTRY ${last.sequence} IS NOT AS PRINTED`);
});

test("a round's head is the entry its results rest on, comes out the same again, and is taken as it is printed", async () => {
  const { db, slug } = fair;
  const { shots } = await fair.lay("POST", "/rounds", {});
  const enter = (shot: { id: string }, body: object) =>
    fair.as("judge")(201, "POST", `/shots/${shot.id}/fixes`, body);
  const head = async () => (await roundHeads(db, slug)).find(({ round }) => round === 1)?.head ?? null;
  const first = await enter(shots[0], { fix: bearingFix(58) });
  expect(await head()).toBeNull();
  await enter(shots[1], { fix: bearingFix(57) });
  const over = await head();
  const entryAt = async (sequence = 0) => (await allEntries()).find((entry) => entry.sequence === sequence);
  expect((await entryAt(over?.sequence)).act).toBe("fix-recorded");
  expect((await entryAt(over?.sequence)).hash).toBe(over?.hash);
  await fair.lay("POST", "/divisions", { name: "Late" });
  expect(await head()).toEqual(over);
  const lines: string[] = [];
  const printed = headLine(over as Head, 1);
  expect(printed).toMatch(/^Round 1, entry \d+: ([0-9a-f]{4} ){15}[0-9a-f]{4}$/);
  const holds = await verify(["--contest", slug, "--head", printed], (line) => lines.push(line));
  expect(holds, lines.join("\n")).toBe(true);
  expect(lines.join("\n")).toContain(`Entry ${over?.sequence} is as printed`);
  // A correction makes another head; the one that was signed stays true of what came before it.
  await enter(shots[0], { fix: bearingFix(59), replacesId: first.id, reason: "Read again" });
  expect((await head())?.sequence).toBeGreaterThan(over?.sequence ?? 0);
  expect(await verify(["--contest", slug, "--head", printed], () => {})).toBe(true);
});

test("a landing point changed, added or taken out behind the scorebook's back is found", async () => {
  const { db, slug } = fair;
  const points = async () => (await checkScorebook(db, slug, [])).landingPoints;
  const [shot] = (await fair.lay("POST", "/rounds", {})).shots;
  const made = await fair.as("judge")(201, "POST", `/shots/${shot.id}/fixes`, { fix: bearingFix(61.2) });
  expect(await points()).toEqual([]);
  const row = await db.fix.findUniqueOrThrow({ where: { id: made.id } });
  const statements =
    engine === "sqlite"
      ? ["update", "delete"].map((what) => `DROP TRIGGER IF EXISTS "Fix_no_${what}"`)
      : ['ALTER TABLE "Fix" DISABLE TRIGGER "Fix_append_only"'];
  for (const statement of statements) await db.$executeRawUnsafe(statement);
  const where = { id: made.id };
  await db.fix.update({ where, data: { input: row.input.replace("61.2", "71.2") } });
  expect(await points()).toEqual([
    expect.stringContaining(`${made.id} is not what entry ${row.sequence} says`),
  ]);
  await db.fix.delete({ where });
  expect(await points()).toEqual([expect.stringContaining(`entry ${row.sequence} (${made.id}) is gone`)]);
  await db.fix.create({ data: row });
  await db.fix.create({ data: { ...row, id: "never-entered" } });
  expect(await points()).toEqual([expect.stringContaining("never-entered of shot")]);
  await db.fix.delete({ where: { id: "never-entered" } });
});

test("the exported file is checked without a database, and a broken one is refused in words", async () => {
  const folder = mkdtempSync(join(tmpdir(), "fairthrow-scorebook-"));
  const file = join(folder, "scorebook.ndjson");
  const check = (...heads: string[]) =>
    verify(["--file", file, ...heads.flatMap((head) => ["--head", head])], () => {});
  try {
    const text = await (await send("GET", `${fair.base}/scorebook/file`)).text();
    const entries = await allEntries();
    expect(
      text
        .split("\n")
        .filter(Boolean)
        .map((line) => JSON.parse(line).hash),
    ).toEqual(entries.map(({ hash }) => hash));
    writeFileSync(file, text);
    const last = entries.at(-1);
    expect(await check(`${last.sequence}:${last.hash}`)).toBe(true);
    expect(await check(`${last.sequence}:${entries[0].hash}`)).toBe(false);
    await expect(check("12")).rejects.toThrow("is no head");
    writeFileSync(file, text.replace("contest-created", "contest-Created"));
    expect(await check()).toBe(false);
    writeFileSync(file, `${text}not an entry\n`);
    await expect(check()).rejects.toThrow(`Line ${entries.length + 1}`);
    writeFileSync(file, "");
    await expect(check()).rejects.toThrow("is empty");
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test("a page that cannot be is refused with the field", async () => {
  const problem = await expecting(422, "GET", `${fair.base}/scorebook?limit=0`);
  expect(problem.errors[0].field).toBe("limit");
});
