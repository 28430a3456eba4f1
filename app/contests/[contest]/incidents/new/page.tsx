import { allowed, overview, titled } from "@/app/_ui/reading";
import { may } from "@/lib/contest";
import { pegsOf, standNow } from "../stand";
import { EnterDesk } from "./enter-desk";

export const generateMetadata = titled("Enter an incident");

export default async function EnterIncidentPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const { machine } = await searchParams;
  const who = await allowed(slug, ["organiser", "safety-officer", "judge"]);
  const contest = await overview(slug);
  const numbers = new Map(contest.entrants.map(({ id, number }) => [id, number]));
  return (
    <>
      <h1>Enter an incident</h1>
      <EnterDesk
        slug={slug}
        owner={who.badgeId}
        sequence={contest.sequence}
        mayRead={may(who, "see incidents", contest.id)}
        chosen={typeof machine === "string" ? machine : null}
        pegs={pegsOf(contest)}
        machines={contest.machines
          .filter(({ retired }) => !retired)
          .map((one) => ({
            id: one.id,
            label: `${numbers.get(one.entrantId)} ${one.name}`,
            name: one.name,
            stand: standNow(contest, one),
          }))}
      />
    </>
  );
}
