/** What a person does to the whole database from the command line. */

import { databaseUrl, describeUrl, engineOfUrl } from "../db";
import { BackupError, backup, emptyDatabase, restore, verifyBackup } from "../db/backup";
import { prepare } from "./prepare";

type Say = (line: string) => void;

/** Throws BackupError with what to do instead; a database is never changed without a copy of it kept first. */
export async function maintain(command: string, args: string[], local: boolean, say: Say): Promise<void> {
  const url = databaseUrl();
  const agreed = args.includes("--yes");
  const [file] = args.filter((argument) => argument !== "--yes");
  if (command === "backup") {
    const made = backup(url, file);
    say(`Backup of ${describeUrl(url)}, read through and whole: ${made.file}`);
    say("Keep a copy on another machine. Its sign-in codes are stored as hashes only.");
  } else if (command === "restore") {
    if (!file) throw new BackupError("Say which backup: npm run db:restore -- data/backups/NAME.db");
    const found = verifyBackup(url, file);
    say(`${found.file} is whole; its last migration is ${found.migrations.at(-1)}.`);
    confirm(url, agreed, `db:restore -- ${file} --yes`);
    tellKept(await restore(url, file), say);
    say(`Restored ${describeUrl(url)}.`);
  } else if (command === "reset") {
    confirm(url, agreed, "db:reset -- --yes");
    tellKept(await emptyDatabase(url), say);
    const { notes, close } = await prepare({ local });
    await close();
    for (const line of notes) say(line);
  } else throw new BackupError(`There is no db:${command}. There are db:backup, db:restore and db:reset.`);
}

/** A database on a server may be other people's too: it is named, and the word must be given. */
function confirm(url: string, agreed: boolean, command: string): void {
  if (agreed || engineOfUrl(url) === "sqlite") return;
  throw new BackupError(
    `This replaces everything in ${describeUrl(url)}, for all who use it. A copy is kept first. ` +
      `Stop every Fairthrow that uses it; if you mean it: npm run ${command}`,
  );
}

function tellKept(kept: string | null, say: Say): void {
  if (kept) say(`What was there before is kept in ${kept}; db:restore puts it back.`);
}
