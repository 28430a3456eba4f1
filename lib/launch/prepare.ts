/** Makes the database ready to serve: locked, migrated, and not empty on a first local start. */
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

export type SignIn = { role: string; label: string; code: string };
export type Prepared = { notes: string[]; signIns: SignIn[]; close: () => Promise<void> };

/** Something the person at the keyboard can mend: printed without a stack. */
class PrepareError extends Error {
  readonly expected = true;
}

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
    const { notes, signIns } = await fill(database, local && engineOfUrl(url) === "sqlite");
    const close = async () => {
      await closeDatabase();
      unlock();
    };
    return { notes: [`Database: ${describeUrl(url)}`, ...notes], signIns, close };
  } catch (error) {
    await closeDatabase();
    unlock();
    throw error;
  }
}

function cannotOpen(url: string, error: Error): never {
  if (error instanceof MigrationError) throw error;
  const reason = error.message || (error as NodeJS.ErrnoException).code;
  throw new PrepareError(`The database ${describeUrl(url)} cannot be opened: ${reason}`, { cause: error });
}

async function fill(
  database: Database,
  mayHaveDemo: boolean,
): Promise<{ notes: string[]; signIns: SignIn[] }> {
  const started = await database.setting.findUnique({ where: { key: STARTED } });
  if (!started && mayHaveDemo) {
    const { loadDemo } = await import("../../prisma/demo");
    const signIns = await loadDemo(database);
    await remember(database);
    return { notes: signInNotes(signIns), signIns };
  }
  if (!started) await remember(database);
  const code = await ensureSetupCode(database);
  if (code)
    return {
      notes: [`Nobody runs this fair yet. The first organiser enters this setup code: ${code}`],
      signIns: [],
    };
  const demo = await database.contest.findFirst({ where: { demo: true }, select: { id: true } });
  if (!demo) return { notes: [], signIns: [] };
  const again =
    "The demo's sign-ins were printed when it was made; npm run db:reset makes a new demo and new ones.";
  const open = "This database holds the demo contest, and other machines can reach it.";
  return { notes: mayHaveDemo ? [again] : [open, again], signIns: [] };
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
