import { ButtonLink } from "@/app/_ui/button";
import form from "@/app/_ui/paper-form.module.css";
import { PrintButton } from "@/app/_ui/print-button";
import { asker, overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { bearingText, contestDays, longDay, OUTCOME_WORDS } from "@/app/_ui/words";
import { readMarkRule, roundShots } from "@/lib/contest";
import { LANDING_WORDS, UNIT_WORDS } from "../organise/marking/words";
import { isPaperMethod, type LogColumn, logColumns, PAPER_METHODS, USUAL_PAPER_METHOD } from "./columns";
import styles from "./landing-log.module.css";

export const generateMetadata = titled("Landing log");

/** For what is thrown again. */
const SPARE_LINES = 2;
const OUTCOMES = Object.values(OUTCOME_WORDS);

/** Printed before the day: a line for every shot of a round, to be written by hand and typed in later. */
export default async function LandingLogPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const asked = await searchParams;
  const method = isPaperMethod(asked.method) ? asked.method : USUAL_PAPER_METHOD;
  const contest = await overview(slug);
  const who = await asker();
  const { rule, centre, protestMinutes } = await reading((db) => readMarkRule(db, slug));
  const { round, shots } = await reading((db) => roundShots(db, slug, roundAsked(asked)));
  const pegs = contest.controlPoints.filter(({ retired }) => !retired);
  const columns = logColumns(method, { pegs, declination: contest.declination });
  const title = PAPER_METHODS.find((one) => one.method === method)?.title;
  const here = (part: { round?: number | null; method?: string }) =>
    `/contests/${slug}/landing-log?${new URLSearchParams({ round: String(part.round ?? round), method: part.method ?? method })}`;
  return (
    <>
      <h1>Landing log{round !== null && `, round ${round}`}</h1>
      <p className={form.words}>
        {contest.name}, {contestDays(contest)}. Marks count from{" "}
        {rule.from === "arc" ? `the measuring arc about ${centre?.name}` : "the firing point"} to{" "}
        {LANDING_WORDS[rule.landing]}, rounded down to {UNIT_WORDS[rule.unit]} by the program: write the
        numbers as read, with their unit. Declination {contest.declination.toFixed(1)}° (east positive). Pegs:{" "}
        {pegs.length > 0 ? pegs.map(({ name }) => name).join(", ") : "none but the firing points"}; leave them
        standing until protests have ended, {protestMinutes} minutes after the results of the round. Witness:
        a post or a role, no person’s name.
      </p>
      {shots.length > 0 && (
        <div className="no-print">
          <p className="button-row">
            <PrintButton>Print this log</PrintButton>
            {who?.role === "judge" && who.contestSlug === slug && (
              <ButtonLink href={`/contests/${slug}/judge/paper?round=${round}&method=${method}`}>
                Type in a log that is filled in
              </ButtonLink>
            )}
          </p>
          <nav aria-label="Measured by" className={form.ways}>
            {PAPER_METHODS.map((one) => (
              <a
                key={one.method}
                href={here({ method: one.method })}
                aria-current={one.method === method ? "true" : undefined}
              >
                {one.title}
              </a>
            ))}
          </nav>
          {contest.roundsMade.length > 1 && (
            <nav aria-label="Rounds" className={form.ways}>
              {contest.roundsMade.map((made) => (
                <a
                  key={made.round}
                  href={here({ round: made.round })}
                  aria-current={made.round === round ? "true" : undefined}
                >
                  Round {made.round}
                </a>
              ))}
            </nav>
          )}
        </div>
      )}
      {shots.length === 0 ? (
        <p>No firing order is made yet, so there is nothing to fill in.</p>
      ) : (
        <>
          <dl className={styles.head}>
            <div>
              <dt>Day</dt>
              {/* Of several days somebody writes down which. */}
              <dd>{contest.lastDate && contest.lastDate !== contest.date ? "" : longDay(contest.date)}</dd>
            </div>
            <div>
              <dt>Measured by</dt>
              <dd>{title}</dd>
            </div>
            <div>
              <dt>Witness (post) of lines that name none</dt>
              <dd />
            </div>
          </dl>
          <div className="table-frame" role="region" aria-label="Landing log" tabIndex={0}>
            <table className={`table ${styles.log}`}>
              <thead>
                <tr>
                  <th scope="col">Shot</th>
                  {columns.map(({ key, head }) => (
                    <th key={key} scope="col">
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {shots.map((shot) => (
                  <tr key={shot.id}>
                    <th scope="row">
                      {shot.position}. {shot.entrantNumber} {shot.entrantName}
                      <small>
                        firing point {shot.firingPointNumber}, {bearingText(shot.bearing)}
                      </small>
                    </th>
                    <Cells columns={columns} />
                  </tr>
                ))}
                {Array.from({ length: SPARE_LINES }, (_, line) => (
                  <tr key={`again ${line}`}>
                    <th scope="row">
                      Thrown again:
                      <small>write which shot</small>
                    </th>
                    <Cells columns={columns} />
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </>
      )}
    </>
  );
}

/** To be ticked, or to be written in. */
function Cells({ columns }: { columns: readonly LogColumn[] }) {
  return columns.map(({ key }) => (
    <td key={key} className={key === "outcome" ? styles.ticks : undefined}>
      {key === "outcome" && OUTCOMES.map((word) => <span key={word}>{word}</span>)}
    </td>
  ));
}
