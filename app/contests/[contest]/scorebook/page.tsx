import Link from "next/link";
import { Button } from "@/app/_ui/button";
import { TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, reading, titled } from "@/app/_ui/reading";
import { instantText } from "@/app/_ui/words";
import type { ScorebookEntryInfo } from "@/lib/api/contracts";
import { groupedHash, roundShots, scorebookPage, verifyScorebook, wholeScorebook } from "@/lib/contest";
import type { UnitSystem } from "@/lib/units";
import styles from "./scorebook.module.css";
import { actWords, bodyWords, type NameOf } from "./words";

export const generateMetadata = titled("Scorebook");

export default async function ScorebookPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const asked = await searchParams;
  const from = Number(asked.before);
  const before = Number.isInteger(from) && from > 0 ? from : undefined;
  const search = typeof asked.search === "string" ? asked.search.trim().slice(0, 200) : "";
  const contest = await overview(slug);
  const system = await readerUnits(contest.units);
  const nameOf = await namesOf(slug);
  const verified = await reading((db) => verifyScorebook(db, slug));
  const found = search
    ? matching(await reading((db) => wholeScorebook(db, slug)), search, nameOf, system)
    : null;
  const book = found ?? (await reading((db) => scorebookPage(db, slug, before ? { before } : {})));
  return (
    <>
      <h1>Scorebook</h1>
      <p>
        Everything official, in the order in which it was entered. Nothing in it is changed or taken out: a
        correction is a new entry. Each entry&rsquo;s hash covers the one before, so a change anywhere shows.
      </p>
      {verified.holds ? (
        <Notice kind="done" title="The chain holds">
          <p>
            All {verified.entries} entries were hashed again just now and fit together. Newest hash:{" "}
            <code className={styles.hash}>{groupedHash(verified.head)}</code>
          </p>
          <p>
            That shows changes inside the chain. A chain rewritten whole, or with its end cut off, shows only
            against a head kept elsewhere: <Link href={`/contests/${slug}/scorebook/head`}>print it</Link>{" "}
            each round, and have it signed.{" "}
            <a href={`/api/v1/contests/${slug}/scorebook/file`}>Keep the whole file</a> on another machine
            too.
          </p>
        </Notice>
      ) : (
        <Notice kind="problem" title="The chain does not hold">
          <p>
            Entry {verified.brokenAt} does not fit: {verified.reason} Publish no results from this scorebook;
            compare it with a backup and with the hashes noted on paper.
          </p>
        </Notice>
      )}
      <form className={styles.search} action={`/contests/${slug}/scorebook`}>
        <TextField
          id="search"
          label="Search entries"
          help="A team, a badge, an act, a word of a reason, a number."
          type="search"
          name="search"
          defaultValue={search}
          maxLength={200}
        />
        <Button type="submit">Search</Button>
        {search && (
          <Link className="button button-plain" href={`/contests/${slug}/scorebook`}>
            All entries
          </Link>
        )}
      </form>
      {found && <p>{foundWords(found, search)}</p>}
      <ol className={styles.entries}>
        {book.entries.map((entry) => (
          <li key={entry.sequence}>
            <p className={styles.line}>
              <strong>{entry.sequence}</strong> {actWords(entry.act)}
              <span>
                {entry.by}, {instantText(entry.createdAt)}
              </span>
            </p>
            <p className={styles.words}>{bodyWords(entry, nameOf, system)}</p>
            <details>
              <summary>
                Hash and text<span className="aloud"> of entry {entry.sequence}</span>
              </summary>
              <p>
                Hash <code className={styles.hash}>{entry.hash}</code>
              </p>
              <p>
                Before it{" "}
                <code className={styles.hash}>{entry.previousHash || "nothing: the first entry"}</code>
              </p>
              <p>
                Text hashed (SHA-256 of the hash before, a line feed and this){" "}
                <code className={styles.hash}>{entry.body}</code>
              </p>
            </details>
          </li>
        ))}
      </ol>
      {!found && book.entries.length === 0 && <p>Nothing is entered yet.</p>}
      <p className="button-row">
        {before && (
          <Link className="button button-plain" href={`/contests/${slug}/scorebook`}>
            Newest
          </Link>
        )}
        {book.next !== null && (
          <Link className="button button-plain" href={`/contests/${slug}/scorebook?before=${book.next}`}>
            Earlier entries
          </Link>
        )}
      </p>
    </>
  );
}

/** Most that one search shows. */
const MOST_FOUND = 200;

/** The entries in whose words, as the page shows them, every word asked for stands. */
function matching(entries: ScorebookEntryInfo[], search: string, nameOf: NameOf, system: UnitSystem) {
  const plain = (text: string) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const asked = plain(search).split(/\s+/);
  const all = entries.filter((entry) => {
    const { sequence, by, act, body, hash, createdAt } = entry;
    const shown = plain(
      `${sequence} ${actWords(act)} ${by} ${instantText(createdAt)} ${bodyWords(entry, nameOf, system)} ${body} ${hash}`,
    );
    return asked.every((word) => shown.includes(word));
  });
  return { entries: all.slice(0, MOST_FOUND), count: all.length, next: null };
}

function foundWords({ count }: { count: number }, search: string): string {
  if (count === 0) return `No entry has “${search}” in it.`;
  const found = `${count} ${count === 1 ? "entry has" : "entries have"} “${search}” in ${count === 1 ? "it" : "them"}`;
  return count > MOST_FOUND ? `${found}; the newest ${MOST_FOUND} are shown.` : `${found}, the newest first.`;
}

/** Public names for the ids that stand in the chain. */
async function namesOf(slug: string): Promise<NameOf> {
  const contest = await overview(slug);
  const rounds = await Promise.all(
    contest.roundsMade.map(({ round }) => reading((db) => roundShots(db, slug, round))),
  );
  const names = new Map<unknown, string>();
  for (const one of [...contest.divisions, ...contest.entrants, ...contest.machines, ...contest.features]) {
    names.set(one.id, one.name);
  }
  for (const { id, number } of contest.firingPoints) names.set(id, `firing point ${number}`);
  for (const { shots } of rounds) {
    for (const shot of shots) names.set(shot.id, `${shot.entrantName}, round ${shot.round}`);
  }
  return (id) => names.get(id) ?? null;
}
