/** Makes the database ready to serve: locked, migrated, and not empty on a first local start. */
import { expirePeople } from "../contest/erase-people";
import { ensureSetupCode } from "../contest/setup";
import {
  closeDatabase,
  type Database,
  databaseUrl,
  describeUrl,
  engineOfUrl,
  getDatabase,
  lockDatabase,
  MigrationError,
  migrate,
} from "../db";
import { emptyDatabase } from "../db/backup";
import { MendableError } from "./mendable";

type SignIn = { role: string; label: string; code: string };
type Prepared = { notes: string[]; close: () => Promise<void> };

const DAY = 24 * 3600_000; // ms

/** The setting that tells a database which was started before from a new one. */
const STARTED = "first-start";

/**
 * Opens the program's database. `notes` is what to tell the person who started it: the demo's sign-ins on a new
 * SQLite file that only this machine can reach, else the setup code as long as there is no organiser.
 */
export async function prepare({ local }: { local: boolean }): Promise<Prepared> {
  const url = databaseUrl();
  // Settled here: a settings file that is read later cannot move it under the running program.
  process.env.DATABASE_URL = url;
  const unlock = lockDatabase(url);
  try {
    await migrate(url).catch((error) => cannotOpen(url, error));
    const database = await getDatabase();
    const mayHaveDemo = local && engineOfUrl(url) === "sqlite";
    if (mayHaveDemo && (await isHalfMade(database))) {
      await closeDatabase();
      unlock();
      await emptyDatabase(url);
      return await prepare({ local });
    }
    const notes = await fill(database, mayHaveDemo);
    const expiring = await expireDaily(database);
    const close = async () => {
      clearInterval(expiring);
      await closeDatabase();
      unlock();
    };
    return { notes: [`Database: ${describeUrl(url)}`, ...notes], close };
  } catch (error) {
    await closeDatabase();
    unlock();
    throw error;
  }
}

/** People's data whose time is over go at every start, and once a day while it runs. */
async function expireDaily(database: Database): Promise<NodeJS.Timeout> {
  const expire = () =>
    expirePeople(database).catch((error) =>
      console.error("People's data whose time is over could not be erased; tried again in a day.", error),
    );
  await expire();
  return setInterval(expire, DAY).unref();
}

function cannotOpen(url: string, error: Error): never {
  if (error instanceof MigrationError) throw error;
  const reason = error.message || (error as NodeJS.ErrnoException).code;
  throw new MendableError(`The database ${describeUrl(url)} cannot be opened: ${reason}`, { cause: error });
}

/** Whether the first start was cut off while it made the demo: nobody has used the database yet. */
async function isHalfMade(database: Database): Promise<boolean> {
  const started = await database.setting.findUnique({ where: { key: STARTED } });
  const contests = await database.contest.findMany({ select: { demo: true } });
  return !started && contests.length > 0 && contests.every(({ demo }) => demo);
}

/** Loads the demo into a new database that may have it; answers what to tell about the people in it. */
async function fill(database: Database, mayHaveDemo: boolean): Promise<string[]> {
  const started = await database.setting.findUnique({ where: { key: STARTED } });
  if (!started && mayHaveDemo) {
    const { loadDemo } = await import("../../prisma/demo");
    const signIns = await loadDemo(database);
    await remember(database);
    return signInNotes(signIns);
  }
  if (!started) await remember(database);
  const code = await ensureSetupCode(database);
  if (code) return [`Nobody runs this fair yet. The first organiser enters this setup code: ${code}`];
  const demo = await database.contest.findFirst({ where: { demo: true }, select: { id: true } });
  if (!demo) return [];
  const again =
    "The demo's sign-ins were printed when it was made; npm run db:reset makes a new demo and new ones.";
  const reachable = "This database holds the demo contest, and other machines can reach it.";
  return mayHaveDemo ? [again] : [reachable, again];
}

async function remember(database: Database): Promise<void> {
  const value = new Date().toISOString();
  await database.setting.upsert({ where: { key: STARTED }, create: { key: STARTED, value }, update: {} });
}

function signInNotes(signIns: SignIn[]): string[] {
  const width = Math.max(...signIns.map(({ role, label }) => `${label} (${role})`.length));
  const lines = signIns.map(({ role, label, code }) => `  ${`${label} (${role})`.padEnd(width)}  ${code}`);
  return [
    "A new demo contest, all invented. Sign in with one of these codes, made on this machine just now:",
    ...lines,
  ];
}
