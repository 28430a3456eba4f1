/** `npm run scorebook:verify`: is the scorebook what was printed? From the database, beside the running program, or a file. */
import { createReadStream, existsSync } from "node:fs";
import { createInterface } from "node:readline";
import { parseArgs } from "node:util";
import {
  Chain,
  type ChainEntry,
  checkScorebook,
  groupedHash,
  isRefusal,
  type PrintedHead,
  printedHead,
} from "../contest";
import { type Database, databaseUrl, describeUrl, engineOfUrl, openDatabase, sqlitePath } from "../db";
import { MendableError } from "./mendable";

const USAGE =
  "npm run scorebook:verify -- [--contest ADDRESS] [--head 57:3fa90c41…]… [--file SCOREBOOK.ndjson]\n" +
  "Give every head that was printed and signed: the number of the entry, a colon and at least the first 16 characters of its hash.";

/** True when everything that was looked at holds. Throws MendableError with what to do instead. */
export async function verify(args: string[], say: (line: string) => void): Promise<boolean> {
  const { contest, head, file } = asked(args);
  const printed = heads(head);
  if (file !== undefined) {
    say(`Scorebook in ${file}`);
    const holds = tell(await chainOfFile(file, printed), printed, null, say);
    say(`- what was entered after the file was made.`);
    return holds;
  }
  const url = databaseUrl();
  if (engineOfUrl(url) === "sqlite" && !existsSync(sqlitePath(url)))
    throw new MendableError(`There is no ${describeUrl(url)}. Set DATABASE_URL to the one that is meant.`);
  const db = await openDatabase(url);
  try {
    return await verifyAll(db, contest, printed, say);
  } finally {
    await db.$disconnect();
  }
}

function asked(args: string[]) {
  try {
    const string = { type: "string" } as const;
    const options = { contest: string, file: string, head: { type: "string", multiple: true } } as const;
    return parseArgs({ args, options }).values;
  } catch (error) {
    throw new MendableError(`${(error as Error).message}\n${USAGE}`);
  }
}

function heads(texts: string[] = []): PrintedHead[] {
  try {
    return texts.map(printedHead);
  } catch (error) {
    throw isRefusal(error) ? new MendableError(`${error.detail}\n${USAGE}`) : error;
  }
}

async function verifyAll(
  db: Database,
  slug: string | undefined,
  printed: PrintedHead[],
  say: (line: string) => void,
): Promise<boolean> {
  const contests = await db.contest.findMany({
    where: slug === undefined ? {} : { slug },
    orderBy: { createdAt: "asc" },
    select: { slug: true, name: true },
  });
  if (contests.length === 0)
    throw new MendableError(slug === undefined ? "There is no contest yet." : `There is no contest ${slug}.`);
  if (printed.length > 0 && contests.length > 1)
    throw new MendableError(
      `Say whose head it is, with --contest and one of: ${contests.map((one) => one.slug).join(", ")}.`,
    );
  let right = true;
  for (const one of contests) {
    say(`Scorebook of ${one.name} (${one.slug})`);
    const { chain, landingPoints } = await checkScorebook(db, one.slug, printed);
    const holds = tell(chain, printed, landingPoints, say);
    say(
      "- what stands in other tables than landing points: names, drawings, files, of which it holds no more than hashes.\n",
    );
    right &&= holds;
  }
  return right;
}

function tell(
  chain: Chain,
  printed: readonly PrintedHead[],
  landingPoints: readonly string[] | null,
  say: (line: string) => void,
): boolean {
  const { broken, sequence, head } = chain;
  if (broken) {
    say(`DOES NOT HOLD at entry ${broken.at}: ${broken.reason} The ${sequence} before it fit together.`);
    say("Publish no results from it. Compare it with a backup and with what was printed.");
  } else {
    say(`The chain holds: ${sequence} entries hashed again, each fits the one before. Its head:`);
    say(`${sequence}: ${groupedHash(head)}`);
  }
  const differing = chain.differing();
  for (const one of printed) {
    const wrong = differing.find((other) => other.printed === one);
    if (!wrong) say(`Entry ${one.sequence} is as printed, and so is every one before it.`);
    else if (wrong.found !== null)
      say(
        `ENTRY ${one.sequence} IS NOT AS PRINTED. Here: ${groupedHash(wrong.found)}. It or one before it was changed.`,
      );
    else say(`ENTRY ${one.sequence} WAS PRINTED AND IS NOT HERE: the chain ends or breaks before it.`);
  }
  for (const text of landingPoints ?? []) say(`LANDING POINTS DIFFER: ${text}`);
  if (landingPoints?.length === 0) say("The landing points that marks are made from are those that it has.");
  const last = Math.max(0, ...printed.map((one) => one.sequence));
  say("What this cannot find:");
  say(
    last === 0
      ? "- a chain that was rewritten whole, or cut off at its end: give the heads that were printed and signed, with --head."
      : `- what was rewritten or cut off after entry ${last}, the last printed head that was given.`,
  );
  say("- what never was entered, and what was entered wrongly in the first place.");
  return broken === null && differing.length === 0 && !landingPoints?.length;
}

/** Throws MendableError for what is no exported scorebook. */
async function chainOfFile(file: string, printed: PrintedHead[]): Promise<Chain> {
  if (!existsSync(file)) throw new MendableError(`There is no file ${file}.`);
  const chain = new Chain(printed);
  let line = 0;
  for await (const text of createInterface({ input: createReadStream(file, "utf8"), crlfDelay: 1e9 })) {
    line++;
    if (text === "") continue;
    chain.add(entryOf(text) ?? lost(file, line));
  }
  if (line === 0) throw new MendableError(`${file} is empty.`);
  return chain;
}

const lost = (file: string, line: number): never => {
  throw new MendableError(
    `Line ${line} of ${file} is no entry. Give a file as the scorebook's page exports it: a line of JSON for each entry.`,
  );
};

function entryOf(text: string): ChainEntry | null {
  try {
    const entry = JSON.parse(text) as Partial<Record<keyof ChainEntry, unknown>> | null;
    const { sequence, previousHash, hash, body } = entry ?? {};
    const right =
      typeof sequence === "number" &&
      typeof previousHash === "string" &&
      typeof hash === "string" &&
      typeof body === "string";
    return right ? { sequence, previousHash, hash, body } : null;
  } catch {
    return null;
  }
}
