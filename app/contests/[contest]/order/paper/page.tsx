import { LocalTime } from "@/app/_ui/local-time";
import form from "@/app/_ui/paper-form.module.css";
import styles from "@/app/_ui/paper-lines.module.css";
import { PrintButton } from "@/app/_ui/print-button";
import { overview, reading, roundAsked, titled } from "@/app/_ui/reading";
import { bearingText, contestDays } from "@/app/_ui/words";
import type { TurnInfo } from "@/lib/api/contracts";
import { firingOrder } from "@/lib/contest";

export const generateMetadata = titled("Firing order on paper");

/** For the clipboard at the line: every turn with room for what happened, on A4 or Letter. */
export default async function OrderPaperPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const asked = roundAsked(await searchParams);
  const contest = await overview(slug);
  const { turns, at } = await reading((db) => firingOrder(db, slug));
  const stages = [...new Set(turns.map(({ stage }) => stage))];
  const shown = asked === undefined ? stages : stages.filter((stage) => stage === asked);
  return (
    <>
      <h1>Firing order</h1>
      <p className={form.words}>
        {contest.name}, {contestDays(contest)}. As of <LocalTime iso={at} day />. Times are estimates: the
        call at the line, horn and flag count. Nobody re-arms inside a live zone: the crews named step back
        before the machine is raised.
      </p>
      <div className="no-print">
        {turns.length > 0 && (
          <p>
            <PrintButton>Print this order</PrintButton>
          </p>
        )}
        {stages.length > 1 && (
          <nav aria-label="Rounds" className={form.ways}>
            <a href={`/contests/${slug}/order/paper`} aria-current={asked === undefined ? "true" : undefined}>
              All rounds
            </a>
            {stages.map((stage) => (
              <a
                key={stage}
                href={`/contests/${slug}/order/paper?round=${stage}`}
                aria-current={stage === asked ? "true" : undefined}
              >
                Round {stage}
              </a>
            ))}
          </nav>
        )}
      </div>
      {shown.length === 0 && <p>No firing order is made yet, so there is nothing to print.</p>}
      {shown.map((stage) => (
        <RoundSheet key={stage} stage={stage} turns={turns.filter((turn) => turn.stage === stage)} />
      ))}
    </>
  );
}

/** For turns that are added or thrown again. */
const SPARE_LINES = 2;

function RoundSheet({ stage, turns }: { stage: number; turns: readonly TurnInfo[] }) {
  return (
    <section className={styles.sheet}>
      <h2>Round {stage}</h2>
      <div className="table-frame" role="region" aria-label={`Round ${stage}`} tabIndex={0}>
        <table className={`table ${styles.lines}`}>
          <thead>
            <tr>
              <th scope="col">Turn</th>
              <th scope="col">About</th>
              <th scope="col">Steps back for it</th>
              <th scope="col">Fired at</th>
              <th scope="col">Remarks</th>
            </tr>
          </thead>
          <tbody>
            {turns.map((turn) => (
              <tr key={turn.shotId}>
                <th scope="row">
                  {turn.place}. {turn.entrantNumber} {turn.entrantName}
                  <small>
                    {turn.machineName}, firing point {turn.firingPointNumber}, {bearingText(turn.bearing)}
                    {turn.round !== stage && `, for round ${turn.round}`}
                  </small>
                </th>
                <td>{turn.expectedAt ? <LocalTime iso={turn.expectedAt} /> : ""}</td>
                <td>{turn.stops.join(", ")}</td>
                <td>{turn.thrownAt && <LocalTime iso={turn.thrownAt} />}</td>
                <td>{turn.state === "out" ? "out, by a ruling" : ""}</td>
              </tr>
            ))}
            {Array.from({ length: SPARE_LINES }, (_, line) => (
              <tr key={`spare ${line}`}>
                <th scope="row">
                  <small>Added, or thrown again:</small>
                </th>
                <td />
                <td />
                <td />
                <td />
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
