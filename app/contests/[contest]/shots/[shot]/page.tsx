import type { Metadata } from "next";
import { asker, overview, reading } from "@/app/_ui/reading";
import { may, shotHistory } from "@/lib/contest";
import { ProtestForm } from "./protest-form";
import { ShotRecord } from "./shot-record";

export const metadata: Metadata = { title: "History of a shot" };

export default async function ShotPage({ params }: { params: Promise<{ contest: string; shot: string }> }) {
  const { contest: slug, shot: id } = await params;
  const history = await reading((db) => shotHistory(db, slug, id));
  const { shot } = history;
  const [contest, who] = [await overview(slug), await asker()];
  const own = who?.role === "team" ? who.entrantId : shot.entrantId;
  return (
    <>
      <h1>
        Round {shot.round}, {shot.entrantNumber} {shot.entrantName}
      </h1>
      <ShotRecord
        slug={slug}
        history={history}
        pegs={Object.fromEntries(contest.controlPoints.map((peg) => [peg.id, peg.name]))}
      />
      {own && may(who, "enter a protest", contest.id, own) && (
        <ProtestForm
          slug={slug}
          shotId={shot.id}
          own={own}
          teams={
            who?.role === "team"
              ? []
              : contest.entrants.map(({ id: team, number, name }) => ({
                  id: team,
                  name: `${number} ${name}`,
                }))
          }
        />
      )}
    </>
  );
}
