import type { Metadata } from "next";
import Link from "next/link";
import { ButtonLink } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { Notice } from "@/app/_ui/notice";
import { asker, overview, reading } from "@/app/_ui/reading";
import { contestDays, coordinates } from "@/app/_ui/words";
import type { TurnInfo } from "@/lib/api/contracts";
import { firingOrder } from "@/lib/contest";

type Props = { params: Promise<{ contest: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await overview((await params).contest)).name };
}

export default async function ContestPage({ params }: Props) {
  const { contest: slug } = await params;
  const contest = await overview(slug);
  const who = await asker();
  const { turns } = await reading((db) => firingOrder(db, slug));
  const role = who?.contestSlug === slug ? who.role : null;
  const base = `/contests/${slug}`;
  return (
    <>
      <h1>{contest.name}</h1>
      <p>
        {[contest.place, contestDays(contest)].filter(Boolean).join(", ")}
        <br />
        Middle of the site: {coordinates(contest)}
      </p>
      {contest.demo && (
        <Notice title="An invented contest">
          <p>Teams, machines, field and marks are made up, to try things out.</p>
          {(role === "organiser" || role === "safety-officer") && (
            <p>
              <Link href={`${base}/rehearsal`}>Play a day and practise hold</Link>: things go wrong, and your
              officials call it.
            </p>
          )}
        </Notice>
      )}

      <h2>Up now</h2>
      <UpNow turns={turns} base={base} judges={role !== null && role !== "team"} />

      <h2>See</h2>
      <p className="button-row">
        <ButtonLink href={`${base}/standings`} look="main">
          Standings
        </ButtonLink>
        <ButtonLink href={`${base}/map`}>Site map and keep-out zones</ButtonLink>
        <ButtonLink href={`${base}/walk`}>Walk the zone</ButtonLink>
        <ButtonLink href={`${base}/wind`}>Wind of the day</ButtonLink>
        <ButtonLink href={`${base}/range-plan`}>Range plan to print</ButtonLink>
        <ButtonLink href={`${base}/scorebook`}>Scorebook</ButtonLink>
      </p>

      <ForRole
        role={role}
        base={base}
        slug={slug}
        own={contest.machines.filter(({ entrantId }) => entrantId === who?.entrantId)}
      />

      <h2>Teams and machines</h2>
      {contest.divisions.map((division) => {
        const entrants = contest.entrants.filter(({ divisionId }) => divisionId === division.id);
        return (
          <section key={division.id}>
            <h3>{division.name}</h3>
            {entrants.length === 0 ? (
              <p>No team is entered in this division yet.</p>
            ) : (
              <ul>
                {entrants.map((entrant) => {
                  const mayOpen = role !== null && (role !== "team" || who?.entrantId === entrant.id);
                  const machines = contest.machines.filter(({ entrantId }) => entrantId === entrant.id);
                  return (
                    <li key={entrant.id}>
                      <strong>
                        {entrant.number} {entrant.name}
                      </strong>
                      {machines.map((machine) => (
                        <span key={machine.id}>
                          {" · "}
                          {mayOpen ? (
                            <Link href={`${base}/machines/${machine.id}`}>{machine.name}</Link>
                          ) : (
                            machine.name
                          )}
                        </span>
                      ))}
                    </li>
                  );
                })}
              </ul>
            )}
          </section>
        );
      })}
      {contest.divisions.length === 0 && <p>No division is made yet.</p>}

      <Caution title="nobody is cleared by a web page">
        <p>
          Keep-out zones are computed from what teams declare, and failures may exceed them. Follow the safety
          officer, the horn and the flags; local codes decide.
        </p>
      </Caution>
    </>
  );
}

function UpNow({ turns, base, judges }: { turns: readonly TurnInfo[]; base: string; judges: boolean }) {
  if (turns.length === 0) return <p>No firing order is made yet.</p>;
  const left = turns.filter(({ state }) => state === "to-throw");
  const [up, ...after] = left;
  if (!up) return <p>Round {turns.at(-1)?.stage} is done: every shot has its entry.</p>;
  const round = turns.filter(({ stage }) => stage === up.stage);
  return (
    <>
      <p>
        Round {up.round}, shot {round.indexOf(up) + 1} of {round.length}:{" "}
        <strong>
          {up.entrantNumber} {up.entrantName}
        </strong>{" "}
        with {up.machineName}, firing point {up.firingPointNumber}.
        {up.permitted === false && " No firing permit of it stands."}
        {after.length > 0 &&
          ` Then ${after
            .slice(0, 2)
            .map(({ entrantName }) => entrantName)
            .join(", ")}.`}
      </p>
      <p className="button-row">
        <ButtonLink href={`${base}/order`} look={judges ? "plain" : "main"}>
          Firing order with times
        </ButtonLink>
      </p>
      {judges && (
        <p className="button-row">
          <ButtonLink href={`${base}/judge`} look="main">
            Enter this shot
          </ButtonLink>
          <ButtonLink href={`${base}/spot`}>Spot the splash</ButtonLink>
          <ButtonLink href={`${base}/splash`}>Walk to the splash</ButtonLink>
        </p>
      )}
    </>
  );
}

function ForRole({
  role,
  base,
  slug,
  own,
}: {
  role: string | null;
  base: string;
  slug: string;
  /** The machines of the team that reads. */
  own: readonly { id: string; name: string }[];
}) {
  if (role === null) {
    return (
      <>
        <h2>Officials and teams</h2>
        <p>
          <Link href={`/sign-in?next=${encodeURIComponent(`/contests/${slug}`)}`}>
            Sign in with your badge
          </Link>{" "}
          to enter landing points, run the contest or see your machine&rsquo;s hazard sheet.
        </p>
      </>
    );
  }
  if (role === "organiser" || role === "safety-officer") {
    return (
      <>
        <h2>{role === "organiser" ? "Run the contest" : "Safety officer"}</h2>
        <p className="button-row">
          <ButtonLink href={`${base}/organise`}>Organise</ButtonLink>
          <ButtonLink href={`${base}/clearance`}>Inspections and firing permits</ButtonLink>
          <ButtonLink href={`${base}/judge`}>Enter landing points</ButtonLink>
          <ButtonLink href={`${base}/incidents`}>Incidents</ButtonLink>
        </p>
      </>
    );
  }
  if (role === "judge")
    return (
      <>
        <h2>Judge</h2>
        <p className="button-row">
          <ButtonLink href={`${base}/clearance`}>Inspections and firing permits</ButtonLink>
          <ButtonLink href={`${base}/incidents/new`}>Enter an incident</ButtonLink>
        </p>
      </>
    );
  if (role !== "team" || own.length === 0) return null;
  return (
    <>
      <h2>Your machine</h2>
      <p className="button-row">
        {own.map(({ id, name }) => (
          <ButtonLink key={id} href={`${base}/machines/${id}`}>
            {name}: hazard sheet and dimensions
          </ButtonLink>
        ))}
        <ButtonLink href={`${base}/clearance`}>Inspection and firing permit</ButtonLink>
      </p>
    </>
  );
}
