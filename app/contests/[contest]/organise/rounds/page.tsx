import { ButtonLink } from "@/app/_ui/button";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { firingOrder } from "@/lib/contest";
import { crewMachines } from "../../order/crew-machines";
import { PlanDesk } from "./plan-desk";

export const generateMetadata = titled("Plan the firing order");

export default async function RoundsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const order = await reading((db) => firingOrder(db, slug));
  const machines = await crewMachines(slug);
  return (
    <>
      <h1>Plan the firing order</h1>
      <PlanDesk
        slug={slug}
        first={order}
        sequence={contest.sequence}
        machines={machines}
        date={contest.date}
        mayPlan={who.role === "organiser"}
      />
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/order`}>The order as everybody sees it</ButtonLink>
        <ButtonLink href={`/contests/${slug}/order/paper`}>The order on paper</ButtonLink>
        <ButtonLink href={`/contests/${slug}/order/tally`}>Tally sheet on paper</ButtonLink>
      </p>
    </>
  );
}
