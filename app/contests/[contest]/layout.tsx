import type { ReactNode } from "react";
import { Account } from "@/app/_ui/account";
import { asker, me, overview } from "@/app/_ui/reading";
import { Shell, type ShellLink } from "@/app/_ui/shell";
import { type Asker, may } from "@/lib/contest";
import { BadgeEnd } from "./badge-end";
import { RangeBar } from "./range-bar/range-bar";

/** The frame of one contest: its units, and the ways that this reader's role opens. */
export default async function ContestLayout({
  params,
  children,
}: {
  params: Promise<{ contest: string }>;
  children: ReactNode;
}) {
  const { contest: slug } = await params;
  const [contest, who] = [await overview(slug), await asker()];
  return (
    <Shell
      defaultUnits={contest.units}
      links={waysOf(slug, who)}
      account={<Account />}
      bar={
        <>
          <RangeBar
            slug={slug}
            known={contest.sequence}
            mayHold={may(who, "hold the range", contest.id)}
            mayLift={may(who, "lift a hold", contest.id)}
          />
          <BadgeEnd slug={slug} known={contest.sequence} initial={await me()} />
        </>
      }
    >
      {children}
    </Shell>
  );
}

function waysOf(slug: string, who: Asker): ShellLink[] {
  const base = `/contests/${slug}`;
  const here = who?.contestSlug === slug ? who.role : null;
  const ways: ShellLink[] = [
    { href: base, label: "Contest" },
    { href: `${base}/standings`, label: "Standings" },
    { href: `${base}/order`, label: "Order" },
    { href: `${base}/map`, label: "Map" },
  ];
  if (here && here !== "team") ways.push({ href: `${base}/range`, label: "Range" });
  if (here === "judge")
    ways.push({ href: `${base}/post`, label: "Post" }, { href: `${base}/tally`, label: "Tally" });
  if (here === "team") ways.push({ href: `${base}/crew`, label: "Crew" });
  if (here && here !== "team") ways.push({ href: `${base}/judge`, label: "Judge" });
  if (here === "judge") ways.push({ href: `${base}/spot`, label: "Spot" });
  if (here === "organiser" || here === "safety-officer") {
    ways.push({ href: `${base}/organise`, label: "Organise" });
  }
  if (!who) ways.push({ href: "/sign-in", label: "Sign in" });
  return ways;
}
