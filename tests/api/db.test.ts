/** What the database room promises: migrations that hold, one writer, nothing committed is lost, backups. */
import { spawn } from "node:child_process";
import {
  appendFileSync,
  cpSync,
  existsSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import {
  type Database,
  DatabaseInUseError,
  insertRow,
  inTransaction,
  listen,
  lockDatabase,
  migrate,
  type Notice,
  notify,
  openDatabase,
  rowsOf,
} from "@/lib/db";
import { BackupError, backup, emptyDatabase, restore, verifyBackup } from "@/lib/db/backup";
import { readMigrations } from "@/lib/db/migrate";
import { engine, freshDatabase, freshPlace } from "@/tests/database";

// A test that only means something on one engine is not there on the other.
const none = (_name: string, _test: () => unknown) => {};
const onSqlite = engine === "sqlite" ? test : none;
const onPostgresql = engine === "postgresql" ? test : none;

const cleaning: (() => unknown)[] = [];
afterEach(async () => {
  for (const clean of cleaning.splice(0).reverse()) await clean();
});

async function newDatabase() {
  const fresh = await freshDatabase();
  cleaning.push(fresh.close);
  return fresh;
}

async function newPlace() {
  const place = await freshPlace();
  cleaning.push(place.remove);
  return place;
}

const contest = (id: string, createdAt = new Date("2026-09-12T07:30:00.123Z")) => ({
  id,
  slug: id,
  name: "Stubble Field Throw",
  place: "Nether Wickham",
  date: "2026-09-12",
  units: "metric",
  latitude: 51.123456789012,
  longitude: -2.5,
  height: 81,
  rounds: 3,
  policy: "{}",
  air: '{"note":"12 °C"}',
  createdAt,
});

test("a statement past the client reads and writes what the client does, and only while its transaction lasts", async () => {
  const { database } = await newDatabase();
  const row = {
    key: "who: what",
    requestHash: "h",
    status: 201,
    answer: '{"says":"17 °, isn\'t it?"}',
    createdAt: new Date("2026-09-12T07:30:00.123Z"),
  };
  const where = `FROM "Idempotency" WHERE "key" = ? AND "createdAt" <= ?`;
  const late = await inTransaction(database, async (tx) => {
    await insertRow(tx, "Idempotency", row);
    expect(await rowsOf(tx, `SELECT * ${where}`, row.key, row.createdAt)).toEqual([row]);
    return tx;
  });
  expect(await database.idempotency.findMany()).toEqual([row]);
  await expect(insertRow(late, "Idempotency", { ...row, key: "late" })).rejects.toThrow();
  await inTransaction(database, () => Promise.resolve());
  const other = inTransaction(database, async () => {
    // Another transaction is open: the one that is over must not write into it.
    await expect(insertRow(late, "Idempotency", { ...row, key: "late" })).rejects.toThrow();
  });
  await other;
  const failing = inTransaction(database, async (tx) => {
    await insertRow(tx, "Idempotency", { ...row, key: "rolled back" });
    throw new Error("no");
  });
  await expect(failing).rejects.toThrow("no");
  expect(await database.idempotency.findMany()).toEqual([row]);
  const feature = {
    id: "f",
    contestId: "a",
    kind: "boundary",
    name: "",
    geometry: "{}",
    standOff: null,
    rule: null,
    allowance: null,
    retired: true,
  };
  await database.contest.create({ data: contest("a") });
  await database.siteFeature.create({ data: feature });
  await inTransaction(database, async (tx) =>
    expect(await rowsOf(tx, `SELECT * FROM "SiteFeature" WHERE "contestId" = ?`, "a")).toEqual([feature]),
  );
});

test("what is written comes back the same: numbers, words, truth and times", async () => {
  const { database } = await newDatabase();
  const written = contest("a");
  await database.contest.create({ data: written });
  const read = await database.contest.findUniqueOrThrow({ where: { id: "a" } });
  const unsaid = { lastDate: null, declination: 0, demo: false, markRule: null, protestMinutes: 30 };
  expect(read).toEqual({ ...written, ...unsaid });
  const after = (time: string) => database.contest.count({ where: { createdAt: { gt: new Date(time) } } });
  expect(await after("2026-09-12T07:30:00.122Z")).toBe(1);
  expect(await after("2026-09-12T07:30:00.123Z")).toBe(0);
});

test("a row that points nowhere is refused", async () => {
  const { database } = await newDatabase();
  const orphan = { id: "d", contestId: "no such contest", name: "Open", position: 1 };
  await expect(database.division.create({ data: orphan })).rejects.toMatchObject({ code: "P2003" });
});

test("a scorebook entry can be neither changed nor deleted", async () => {
  const { database } = await newDatabase();
  await database.contest.create({ data: contest("a") });
  const entry = { contestId: "a", sequence: 1, act: "opened", subjectId: "a", body: "{}" };
  await database.scorebookEntry.create({
    data: { ...entry, previousHash: "", hash: "h", createdAt: new Date() },
  });
  // Prisma takes what a trigger of SQLite says for a foreign key's.
  const refusal = engine === "sqlite" ? "constraint violated" : "append-only";
  await expect(database.scorebookEntry.updateMany({ data: { body: "[]" } })).rejects.toThrow(refusal);
  await expect(database.scorebookEntry.deleteMany()).rejects.toThrow(refusal);
  expect((await database.scorebookEntry.findFirstOrThrow()).body).toBe("{}");
});

test("writers take turns, so that none overwrites what another has just read", async () => {
  const { database, url } = await newDatabase();
  const second = engine === "sqlite" ? database : await openDatabase(url);
  if (second !== database) cleaning.push(() => second.$disconnect());
  await database.setting.create({ data: { key: "count", value: "0" } });
  const addOne = (to: Database) =>
    inTransaction(to, async (transaction) => {
      const { value } = await transaction.setting.findUniqueOrThrow({ where: { key: "count" } });
      await transaction.setting.update({
        where: { key: "count" },
        data: { value: String(Number(value) + 1) },
      });
    });
  await Promise.all(Array.from({ length: 40 }, (_, turn) => addOne(turn % 2 ? database : second)));
  expect((await database.setting.findUniqueOrThrow({ where: { key: "count" } })).value).toBe("40");
});

test("a transaction that fails leaves nothing behind, and the next one works", async () => {
  const { database } = await newDatabase();
  const failing = inTransaction(database, async (transaction) => {
    await transaction.setting.create({ data: { key: "half", value: "written" } });
    throw new Error("The second half is missing.");
  });
  await expect(failing).rejects.toThrow("The second half is missing.");
  expect(await database.setting.count()).toBe(0);
  await inTransaction(database, (transaction) =>
    transaction.setting.create({ data: { key: "b", value: "" } }),
  );
  expect(await database.setting.count()).toBe(1);
});

test("a notice is heard after the commit, and not at all when there is none", async () => {
  const { database, url } = await newDatabase();
  const heard: Notice[] = [];
  cleaning.push(await listen((notice) => heard.push(notice), undefined, url));
  const failing = inTransaction(database, async (transaction) => {
    await notify(transaction, "a", 1);
    throw new Error("no");
  });
  await expect(failing).rejects.toThrow("no");
  await inTransaction(database, (transaction) => notify(transaction, "a", 2));
  await expect.poll(() => heard).toEqual([{ contestId: "a", sequence: 2 }]);
});

onPostgresql(
  "a listener whose connection was cut listens again and says what it may have missed",
  async () => {
    const { database, url } = await newDatabase();
    const heard: Notice[] = [];
    let gaps = 0;
    const stop = await listen(
      (notice) => heard.push(notice),
      () => gaps++,
      url,
    );
    cleaning.push(stop);
    await database.$executeRaw`SELECT pg_terminate_backend(pid) FROM pg_stat_activity
    WHERE query LIKE 'LISTEN%' AND datname = current_database()`;
    await expect.poll(() => gaps, { timeout: 10_000 }).toBe(1);
    await inTransaction(database, (transaction) => notify(transaction, "a", 3));
    await expect.poll(() => heard).toEqual([{ contestId: "a", sequence: 3 }]);
  },
);

test("migrations are applied once, and one that changed or vanished is refused", async () => {
  const { url, folder } = await newPlace();
  const migrations = join(folder, "migrations");
  cpSync("prisma/migrations", migrations, { recursive: true });
  const applied = await migrate(url, migrations);
  expect(applied.length).toBeGreaterThan(0);
  expect(await migrate(url, migrations)).toEqual([]);

  const file = join(migrations, applied[0], `${engine}.sql`);
  const original = readFileSync(file, "utf8");
  writeFileSync(file, original.replaceAll("\n", "\r\n"));
  expect(await migrate(url, migrations), "other line ends are the same migration").toEqual([]);
  appendFileSync(file, "-- one more word\n");
  await expect(migrate(url, migrations)).rejects.toThrow(`${applied[0]} has changed`);

  rmSync(join(migrations, applied[0]), { recursive: true });
  await expect(migrate(url, migrations)).rejects.toThrow("newer version");
});

test("a migration that fails half way changes nothing", async () => {
  const { url, folder } = await newPlace();
  const migrations = join(folder, "migrations");
  cpSync("prisma/migrations", migrations, { recursive: true });
  const broken = join(migrations, "9999-broken");
  cpSync(join(migrations, "0001-contest"), broken, { recursive: true });
  const file = join(broken, `${engine}.sql`);
  writeFileSync(file, 'CREATE TABLE "Half" ("id" TEXT); CREATE TABLE "Contest" ("id" TEXT);');
  await expect(migrate(url, migrations)).rejects.toThrow("9999-broken failed and changed nothing");
  // It works once mended, which it would not if the first statement had stayed.
  writeFileSync(file, 'CREATE TABLE "Half" ("id" TEXT);');
  expect(await migrate(url, migrations)).toEqual(["9999-broken"]);
});

/** Runs a TypeScript program with the database's URL; `heard` collects its lines. */
function program(source: string, url: string) {
  const script = `(async () => { ${source} })().catch((error) => { console.log("failed", error.message); process.exit(1); })`;
  const child = spawn(process.execPath, ["--import", "tsx", "--input-type=commonjs", "--eval", script], {
    env: { ...process.env, DATABASE_URL: url },
    stdio: ["ignore", "pipe", "inherit"],
  });
  let output = "";
  child.stdout.on("data", (chunk) => {
    output += chunk;
  });
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  cleaning.push(() => child.kill("SIGKILL"));
  const heard = () => output.split("\n").slice(0, -1);
  return { child, heard, ended };
}

const WRITE_ON = `
  const { getDatabase, inTransaction } = require("./lib/db");
  const database = await getDatabase();
  for (let number = 1; ; number++) {
    await inTransaction(database, (transaction) =>
      transaction.setting.create({ data: { key: String(number), value: "x".repeat(500) } }));
    console.log(number);
  }`;

test("what was committed is there after the program is killed", async () => {
  const place = await newPlace();
  await migrate(place.url);
  const writer = program(WRITE_ON, place.url);
  await expect.poll(() => writer.heard().length, { timeout: 30_000 }).toBeGreaterThan(30);
  writer.child.kill("SIGKILL");
  await writer.ended;
  const database = await openDatabase(place.url);
  cleaning.push(() => database.$disconnect());
  const stored = new Set((await database.setting.findMany()).map(({ key }) => key));
  expect(writer.heard().filter((number) => !stored.has(number))).toEqual([]);
});

onSqlite("a commit waits for the disk, on the connection that transactions use too", async () => {
  const { database } = await newDatabase();
  // 2 is FULL, 1 is on: https://www.sqlite.org/pragma.html#pragma_synchronous
  const pragmas = async (on: Pick<Database, "$queryRawUnsafe">) => [
    await on.$queryRawUnsafe("PRAGMA journal_mode"),
    await on.$queryRawUnsafe("PRAGMA synchronous"),
    await on.$queryRawUnsafe("PRAGMA foreign_keys"),
    await on.$queryRawUnsafe("PRAGMA busy_timeout"),
  ];
  const wanted = [
    [{ journal_mode: "wal" }],
    [{ synchronous: 2 }],
    [{ foreign_keys: 1 }],
    [{ timeout: 5000 }],
  ];
  const plain = (value: unknown) =>
    JSON.parse(JSON.stringify(value, (_, x) => (typeof x === "bigint" ? Number(x) : x)));
  expect(plain(await pragmas(database))).toEqual(wanted);
  expect(plain(await inTransaction(database, pragmas))).toEqual(wanted);
  expect(plain(await pragmas(database)), "after a transaction").toEqual(wanted);
});

const HOLD = `
  require("./lib/db").lockDatabase(process.env.DATABASE_URL);
  console.log("held");
  setInterval(() => {}, 1000);`;

onSqlite("a second program on the same file is refused, until the first is gone or killed", async () => {
  const { url } = await newPlace();
  const first = program(HOLD, url);
  await expect.poll(first.heard, { timeout: 30_000 }).toEqual(["held"]);
  expect(() => lockDatabase(url)).toThrow(DatabaseInUseError);
  expect(() => lockDatabase(url)).toThrow(`process ${first.child.pid}`);
  await expect(emptyDatabase(url)).rejects.toThrow(DatabaseInUseError);
  first.child.kill("SIGKILL");
  await first.ended;
  const unlock = lockDatabase(url);
  unlock();
  lockDatabase(url)();
});

test("a backup made while the program writes can be put back", async () => {
  const { database, url, folder } = await newDatabase();
  await database.contest.create({ data: contest("kept") });
  const writing = Promise.all(
    Array.from({ length: 20 }, (_, number) =>
      inTransaction(database, (tx) => tx.setting.create({ data: { key: String(number), value: "" } })),
    ),
  );
  const file = join(folder, "copy");
  const made = backup(url, file);
  await writing;
  expect(made).toEqual({ file, engine, migrations: readMigrations(engine).map(({ name }) => name) });
  expect(() => backup(url, file), "nothing is overwritten").toThrow("already exists");

  await database.contest.create({ data: contest("later") });
  await database.$disconnect();
  process.env.FAIRTHROW_DATA = folder; // where the copies of what is replaced go
  cleaning.push(() => delete process.env.FAIRTHROW_DATA);
  const kept = await restore(url, file);
  const restored = await openDatabase(url);
  expect((await restored.contest.findMany()).map(({ id }) => id)).toEqual(["kept"]);
  expect((await restored.contest.findFirstOrThrow()).createdAt).toEqual(contest("kept").createdAt);
  const orphan = { id: "d", contestId: "later", name: "Open", position: 1 };
  await expect(restored.division.create({ data: orphan })).rejects.toMatchObject({ code: "P2003" });
  await restored.$disconnect();

  // What the restore replaced was kept, and can be put back just the same.
  expect(existsSync(kept ?? "")).toBe(true);
  await restore(url, kept ?? "");
  const again = await openDatabase(url);
  expect(await again.contest.count()).toBe(2);
  await again.$disconnect();

  await emptyDatabase(url);
  await migrate(url);
  const empty = await openDatabase(url);
  expect(await empty.contest.count()).toBe(0);
  await empty.$disconnect();
});

test("a backup that is cut, damaged or something else is refused and the database stays", async () => {
  const { database, url, folder } = await newDatabase();
  for (let number = 0; number < 200; number++)
    await database.contest.create({ data: { ...contest(`c${number}`), air: "x".repeat(400) } });
  const file = join(folder, "copy");
  backup(url, file);
  await database.$disconnect();

  const cut = join(folder, "cut");
  cpSync(file, cut);
  truncateSync(cut, Math.floor(readFileSync(file).length * 0.6));
  const other = join(folder, "other");
  writeFileSync(other, "Names of the marshals, one a line\n");
  for (const bad of [cut, other, join(folder, "missing")]) {
    expect(() => verifyBackup(url, bad)).toThrow(BackupError);
    await expect(restore(url, bad)).rejects.toThrow(BackupError);
  }
  const after = await openDatabase(url);
  expect(await after.contest.count()).toBe(200);
  await after.$disconnect();
});
