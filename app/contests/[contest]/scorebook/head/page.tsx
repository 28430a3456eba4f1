import Link from "next/link";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { instantText } from "@/app/_ui/words";
import { WrittenLines } from "@/app/_ui/written-lines";
import { headAt, headLine, roundHeads, verifyScorebook } from "@/lib/contest";
import styles from "./head.module.css";

export const generateMetadata = titled("Head of the scorebook");

const SIGN = ["Judge", "Safety officer", "Somebody of a team"];

/**
 * Printed when a round's results are out, signed, and kept by more than one: what the scorebook is held against later. A
 * round's head is the entry that its results rest on, so it comes out the same whenever it is printed again.
 */
export default async function HeadPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const asked = roundAsked(await searchParams);
  const contest = await overview(slug);
  const { chain, heads } = await reading(async (db) => ({
    chain: await verifyScorebook(db, slug),
    heads: await roundHeads(db, slug),
  }));
  if (!chain.holds)
    return (
      <Notice kind="problem" title="The chain does not hold">
        <p>
          Entry {chain.brokenAt} does not fit: {chain.reason} There is no head to print. Publish no results
          from this scorebook; compare it with a backup and with the heads printed before.
        </p>
      </Notice>
    );
  const found = asked === undefined ? undefined : heads.find(({ round }) => round === asked);
  const round = found?.head ? found.round : null;
  const head = found?.head ?? (await reading((db) => headAt(db, slug, chain.entries)));
  const base = `/contests/${slug}/scorebook`;
  return (
    <>
      <h1>{round === null ? "Head of the scorebook" : `Head of the scorebook, round ${round}`}</h1>
      <p>
        {contest.name}. Printed {instantText(new Date().toISOString())} of this server’s clock
        {head && `; the entry was made ${instantText(head.createdAt.toISOString())}`}.
      </p>
      {asked !== undefined && round === null && (
        <Notice title={`Round ${asked} has no results yet`}>
          <p>Not all of its shots are entered. This is the head as it is now.</p>
        </Notice>
      )}
      <p className="button-row no-print">
        <PrintButton>Print two: one to keep, one to hand out</PrintButton>
        {heads.flatMap((one) =>
          one.head && one.round !== round ? (
            <Link key={one.round} className="button button-plain" href={`${base}/head?round=${one.round}`}>
              Round {one.round}
            </Link>
          ) : (
            []
          ),
        )}
        {round !== null && (
          <Link className="button button-plain" href={`${base}/head`}>
            As it is now
          </Link>
        )}
        <Link className="button button-plain" href={base}>
          Scorebook
        </Link>
      </p>
      {!head ? (
        <p>Nothing is entered yet.</p>
      ) : (
        <>
          <p className={styles.head}>
            <code>{headLine(head, round)}</code>
          </p>
          <p>
            This line stands for every entry up to {head.sequence}: change, leave out or add one of them, and
            it comes out different. It says nothing of what is entered later, and nothing of whether what was
            entered is true.
          </p>
          <WrittenLines
            caption={`Results of round ${round ?? "______"} as posted rest on this head`}
            rows={SIGN}
          />
          <p>
            To hold the scorebook against it, on the computer that Fairthrow runs on (the first 16 characters
            are enough, and so is the line above as it stands, in quotation marks):
          </p>
          <p className={styles.command}>
            <code>
              npm run scorebook:verify -- --contest {slug} --head {head.sequence}:{head.hash.slice(0, 16)}
            </code>
          </p>
        </>
      )}
    </>
  );
}
