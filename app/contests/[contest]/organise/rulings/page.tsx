import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { contestStandings, listHeldFixes, listProtests, roundShots } from "@/lib/contest";
import { HeldEntries } from "./held-entries";
import { ProtestRulings } from "./protest-rulings";
import { RulingForms } from "./ruling-forms";

export const generateMetadata = titled("Rulings");

export default async function RulingsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer"]);
  const { roundsMade, controlPoints } = await overview(slug);
  const { waiting } = await reading((db, who) => listHeldFixes(db, who, slug));
  const { protests } = await reading((db) => listProtests(db, slug));
  const standings = await reading((db) => contestStandings(db, slug));
  const rounds = await Promise.all(
    roundsMade.map(({ round }) => reading((db) => roundShots(db, slug, round))),
  );
  return (
    <>
      <h1>Rulings and protests</h1>
      <p>
        A ruling changes what counts and never what was measured. It stands in the scorebook with your badge
        and your reason; a later ruling on the same team or shot takes its place.
      </p>
      <HeldEntries
        slug={slug}
        waiting={waiting}
        pegs={Object.fromEntries(controlPoints.map(({ id, name }) => [id, name]))}
      />
      <RulingForms
        slug={slug}
        entrants={standings.overall.map(({ entrantId, number, name, status }) => ({
          id: entrantId,
          number,
          name,
          status,
        }))}
        shots={rounds.flatMap(({ shots }) => shots)}
      />
      <ProtestRulings
        slug={slug}
        protests={protests}
        shots={rounds.flatMap(({ shots }) => shots)}
        teams={standings.overall.map(({ entrantId, name }) => ({ id: entrantId, name }))}
      />
    </>
  );
}
