import Link from "next/link";
import { listContests } from "@/lib/contest";
import { Account } from "./_ui/account";
import { ButtonLink } from "./_ui/button";
import { Caution } from "./_ui/caution";
import { HomeDrawing } from "./_ui/home-drawing";
import { reading } from "./_ui/reading";
import { Shell } from "./_ui/shell";
import { contestDays } from "./_ui/words";
import "./home.css";

/** More are on the page of all contests. */
const LISTED = 6;

const people = [
  {
    who: "Organisers",
    what: "lay out the range on a real site, enter teams and machines, run the day and publish the results.",
  },
  {
    who: "Safety officers",
    what: "see how far each machine could throw on its worst day and why, and what its keep-out zone touches.",
  },
  { who: "Judges", what: "enter a landing point on a phone in seconds and see the mark before it is saved." },
  { who: "Teams", what: "learn before the day what their machine will do, then watch the standings change." },
] as const;

export default async function Home() {
  const contests = await reading((db) => listContests(db));
  return (
    <Shell account={<Account />}>
      <figure className="home-figure">
        <HomeDrawing />
        <figcaption>Full line: as meant. Dashed: the worst ahead. Dotted: the worst behind.</figcaption>
      </figure>
      <h1>A throwing contest, from the worst throw to the last mark</h1>
      <p>
        Fairthrow runs contests of home-built throwing machines. It computes how far a machine could throw
        when everything goes wrong, forwards and backwards, draws who must stand clear on the map of the
        field, measures every landing point and ranks the teams.
      </p>
      <p className="button-row">
        <ButtonLink href="/calculator" look="main">
          Open the calculator
        </ButtonLink>
        <ButtonLink href="/contests">See the contests</ButtonLink>
        <ButtonLink href="/sign-in">Sign in with a badge</ButtonLink>
      </p>
      {contests.length > 0 ? (
        <>
          <h2>Contests here</h2>
          <ul className="home-contests">
            {contests.slice(0, LISTED).map((contest) => (
              <li key={contest.id}>
                <Link href={`/contests/${contest.slug}`}>{contest.name}</Link>{" "}
                {[contest.place, contestDays(contest)].filter(Boolean).join(", ")}
                {contest.demo ? " (invented, to try things out)" : ""}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <h2>Who uses it</h2>
      <dl className="home-people">
        {people.map(({ who, what }) => (
          <div key={who}>
            <dt>{who}</dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
      <Caution kind="mandatory" title="people decide, not this program">
        <p>
          Every figure is computed from what was declared and measured, with its assumptions beside it. The
          safety officer, local codes and licensed practice decide who stands where. Horn, flag and radio stop
          the range.
        </p>
      </Caution>
    </Shell>
  );
}
