import Link from "next/link";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { listBadges, signInLog, usualEnd } from "@/lib/contest";
import { BadgeForm } from "./badge-form";
import { BadgeList } from "./badge-list";
import { SignInTable } from "./sign-in-table";

export const generateMetadata = titled("Badges");

export default async function BadgesPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const { badgeId } = await allowed(slug, ["organiser"]);
  const asked = (await searchParams).skip;
  const skip = typeof asked === "string" && /^\d{1,6}$/.test(asked) ? asked : "0";
  const badges = await reading((db, who) => listBadges(db, who, slug));
  const log = await reading((db, who) => signInLog(db, who, slug, { skip }));
  const contest = await overview(slug);
  const { name, entrants } = contest;
  const usual = usualEnd(contest, new Date()).toISOString();
  return (
    <>
      <h1>Badges</h1>
      <p>
        A badge is how an official or a team signs in. Its code is shown once, when it is made, and never
        stored: print its card or write it down then. A code signs in one device, once. A second device, or
        one that lost its sign-in, gets a new code for the same badge. A lost badge is revoked.
      </p>
      <h2>Make a badge</h2>
      <BadgeForm slug={slug} contest={name} entrants={entrants} usualEnd={usual} />
      <h2>Badges made</h2>
      <BadgeList slug={slug} contest={name} badges={badges} entrants={entrants} own={badgeId} />
      <h2 id="signed-in">Who signed in</h2>
      <SignInTable signIns={log.signIns} />
      <p>
        {log.next !== null && <Link href={`?skip=${log.next}#signed-in`}>Earlier ones</Link>}
        {skip !== "0" && <Link href="?#signed-in">The newest</Link>}
      </p>
    </>
  );
}
