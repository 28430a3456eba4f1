import Link from "next/link";
import { reading, titled } from "@/app/_ui/reading";
import type { Standings } from "@/lib/api/contracts";
import { contestStandings, headLine, roundHeads } from "@/lib/contest";
import { LANDING_WORDS, UNIT_WORDS } from "../organise/marking/words";
import { SHORT_HASH } from "./short-hash";
import { StandingsBoard } from "./standings-board";

type Params = { params: Promise<{ contest: string }> };

export const generateMetadata = titled("Standings");

export default async function StandingsPage({ params }: Params) {
  const { contest } = await params;
  const standings = await reading((db) => contestStandings(db, contest));
  const heads = await reading((db) => roundHeads(db, contest));
  return (
    <>
      <h1>Standings</h1>
      <StandingsBoard slug={contest} initial={standings} />
      {heads.some(({ head }) => head !== null) && (
        <>
          <h2>Heads of the rounds</h2>
          <p>
            What each round’s results rest on in the scorebook, to be printed, signed and held against it:
          </p>
          <ul>
            {heads.flatMap(({ round, head }) =>
              head === null ? (
                []
              ) : (
                <li key={round}>
                  <Link href={`/contests/${contest}/scorebook/head?round=${round}`} prefetch={false}>
                    {headLine({ ...head, hash: head.hash.slice(0, SHORT_HASH) }, round)}
                  </Link>
                </li>
              ),
            )}
          </ul>
        </>
      )}
      <h2>How the places are made</h2>
      <p>
        The longest mark counts. Equal bests are split by the second best, and so on; teams that nothing
        splits share the place. Marks are measured on the ground, {ruleWords(standings)}.
      </p>
      <p>
        NM: no mark from any shot. DNS: did not start. DNF: did not finish; marks made before still count.
        Marks can be corrected or ruled on until the results are published; every change stands in the
        scorebook with its reason.
      </p>
    </>
  );
}

/** From where, to where, and how a mark is rounded, as part of a sentence. */
function ruleWords({ rule, unit }: Standings): string {
  const from = rule.from === "arc" ? "the measuring arc" : "the firing point";
  const sector = rule.sector ? "; what lands outside the sector is said, and a person rules" : "";
  return `from ${from} to ${LANDING_WORDS[rule.landing]}, and rounded down to ${UNIT_WORDS[unit]}${sector}`;
}
