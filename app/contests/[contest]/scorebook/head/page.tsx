import Link from "next/link";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { overview, reading, titled } from "@/app/_ui/reading";
import { instantText } from "@/app/_ui/words";
import { WrittenLines } from "@/app/_ui/written-lines";
import { groupedHash, verifyScorebook } from "@/lib/contest";
import styles from "./head.module.css";

export const generateMetadata = titled("Head of the scorebook");

const SIGN = ["Judge", "Safety officer", "Somebody of a team"];

/** Printed when a round's results are out, signed, and kept by more than one: what the scorebook is held against later. */
export default async function HeadPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const contest = await overview(slug);
  const { holds, entries, head, brokenAt, reason } = await reading((db) => verifyScorebook(db, slug));
  if (!holds)
    return (
      <Notice kind="problem" title="The chain does not hold">
        <p>
          Entry {brokenAt} does not fit: {reason} There is no head to print. Publish no results from this
          scorebook; compare it with a backup and with the heads printed before.
        </p>
      </Notice>
    );
  return (
    <>
      <h1>Head of the scorebook</h1>
      <p>
        {contest.name}. Printed {instantText(new Date().toISOString())} of this server’s clock.
      </p>
      <p className="button-row no-print">
        <PrintButton>Print two: one to keep, one to hand out</PrintButton>
        <Link className="button button-plain" href={`/contests/${slug}/scorebook`}>
          Scorebook
        </Link>
      </p>
      <p className={styles.head}>
        <span>Entry {entries}</span>
        <code>{groupedHash(head)}</code>
      </p>
      <p>
        This line stands for every entry up to {entries}: change, leave out or add one of them, and it comes
        out different. It says nothing of what is entered later, and nothing of whether what was entered is
        true.
      </p>
      <WrittenLines caption="Results of round ______ as posted rest on this head" rows={SIGN} />
      <p>
        To hold the scorebook against it, on the computer that Fairthrow runs on (the first 16 characters are
        enough):
      </p>
      <p className={styles.command}>
        <code>
          npm run scorebook:verify -- --contest {slug} --head {entries}:{head.slice(0, 16)}
        </code>
      </p>
    </>
  );
}
