import { overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { bearingText, contestDays } from "@/app/_ui/words";
import { readMarkRule, roundShots } from "@/lib/contest";
import { LANDING_WORDS, UNIT_WORDS } from "../organise/marking/words";
import { PrintButton } from "../range-plan/print-button";
import styles from "./landing-log.module.css";

export const generateMetadata = titled("Landing log");

const COLUMNS = [
  "Time",
  "Method, from peg",
  "Numbers as read",
  "Foul, misfire or burst",
  "Witness (post)",
  "Typed in",
];

/** Printed before the day: a line for every shot of a round, to be written by hand and typed in later. */
export default async function LandingLogPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const wanted = roundAsked(await searchParams);
  const contest = await overview(slug);
  const { rule, centre, protestMinutes } = await reading((db) => readMarkRule(db, slug));
  const { round, shots } = await reading((db) => roundShots(db, slug, wanted));
  const pegs = contest.controlPoints.filter(({ retired }) => !retired);
  return (
    <>
      <h1>Landing log{round !== null && `, round ${round}`}</h1>
      <p>
        {contest.name}, {contestDays(contest)}. Marks count from{" "}
        {rule.from === "arc" ? `the measuring arc about ${centre?.name}` : "the firing point"} to{" "}
        {LANDING_WORDS[rule.landing]}, rounded down to {UNIT_WORDS[rule.unit]} by the program: write the
        numbers as read, with their unit. Say whether a bearing is true or magnetic; the declination here is{" "}
        {contest.declination.toFixed(1)}° (east positive).
      </p>
      <p>
        Pegs: {pegs.length > 0 ? pegs.map(({ name }) => name).join(", ") : "none but the firing points"}.
        Leave every peg standing until protests have ended, {protestMinutes} minutes after the results of the
        round. Witness: a post or a role, no person’s name.
      </p>
      <div className="no-print">
        <p>
          <PrintButton>Print this log</PrintButton>
        </p>
        {contest.roundsMade.length > 1 && (
          <p>
            {contest.roundsMade.map((made) => (
              <a
                key={made.round}
                className={styles.round}
                href={`/contests/${slug}/landing-log?round=${made.round}`}
              >
                Round {made.round}
              </a>
            ))}
          </p>
        )}
      </div>
      {shots.length === 0 ? (
        <p>No firing order is made yet, so there is nothing to fill in.</p>
      ) : (
        <div className="table-frame" role="region" aria-label="Landing log" tabIndex={0}>
          <table className={`table ${styles.log}`}>
            <thead>
              <tr>
                <th scope="col">Shot</th>
                <th scope="col">Firing point, bearing</th>
                {COLUMNS.map((column) => (
                  <th key={column} scope="col">
                    {column}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {shots.map((shot) => (
                <tr key={shot.id}>
                  <th scope="row">
                    {shot.position}. {shot.entrantNumber} {shot.entrantName}
                  </th>
                  <td>
                    {shot.firingPointNumber}, {bearingText(shot.bearing)}
                  </td>
                  {COLUMNS.map((column) => (
                    <td key={column} />
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}
