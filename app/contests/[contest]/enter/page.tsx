import { KeptHere } from "@/app/_ui/offline/kept-here";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, titled } from "@/app/_ui/reading";
import { contestDays } from "@/app/_ui/words";
import { EnterDesk } from "./enter-desk";

export const generateMetadata = titled("Enter a team");

/** Where a team enters itself, by the organiser's link. Whoever has none finds nothing to enter by. */
export default async function EnterPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const contest = await overview(slug);
  return (
    <>
      <h1>Enter a team</h1>
      <p>
        {contest.name}, {contestDays(contest)}
        {contest.place && `, ${contest.place}`}.
      </p>
      <EnterDesk slug={slug} policy={contest.policy} startingUnits={await readerUnits(contest.units)} />
      <KeptHere
        pages={[`/contests/${slug}/enter`]}
        ready="This page opens from this phone without a network too."
      />
    </>
  );
}
