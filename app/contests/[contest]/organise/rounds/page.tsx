import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { contestStandings, roundShots } from "@/lib/contest";
import { Latecomers } from "./latecomers";
import { OrderForm } from "./order-form";
import { OrderTable } from "./order-table";

export const generateMetadata = titled("Firing order");

export default async function RoundsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  const made = await Promise.all(
    contest.roundsMade.map(({ round }) => reading((db) => roundShots(db, slug, round))),
  );
  const last = contest.roundsMade.at(-1)?.round ?? 0;
  const next = last + 1;
  const { overall } = await reading((db) => contestStandings(db, slug));
  const out = new Set(
    overall.filter(({ status }) => status === "DNS" || status === "DNF").map(({ entrantId }) => entrantId),
  );
  const ready = contest.machines
    .filter(({ firingPointId, bearing, revision }) => firingPointId && bearing !== null && revision !== null)
    .filter(({ entrantId }) => !out.has(entrantId))
    .map(({ id, name, entrantId }) => {
      const entrant = contest.entrants.find((one) => one.id === entrantId);
      return { id, name, entrantId, number: entrant?.number ?? 0, team: entrant?.name ?? "" };
    })
    .sort((a, b) => a.number - b.number);
  return (
    <>
      <h1>Firing order</h1>
      {who.role === "organiser" && (
        <>
          <h2>{next > contest.rounds ? "Every round is made" : `Make the order of round ${next}`}</h2>
          {next > contest.rounds ? (
            <p>All {contest.rounds} rounds of this contest are made.</p>
          ) : ready.length === 0 ? (
            <p>No machine is both declared and placed yet, so there is nothing to put in order.</p>
          ) : (
            <OrderForm key={next} slug={slug} round={next} machines={ready} />
          )}
        </>
      )}
      {[...made].reverse().map(({ round, shots }) => (
        <section key={round}>
          <h2>Round {round}</h2>
          <OrderTable slug={slug} round={round ?? 0} shots={shots} />
          {who.role === "organiser" && round === last && (
            <Latecomers
              slug={slug}
              round={round}
              teams={ready.filter(({ entrantId }) => !shots.some((shot) => shot.entrantId === entrantId))}
            />
          )}
        </section>
      ))}
    </>
  );
}
