"use client";
/** The standings, drawn from what the server sent and again from every live event. Kept small on purpose. */
import { useCallback, useRef, useState } from "react";
import { useLive } from "@/app/_ui/live/use-live";
import { useUnits } from "@/app/_ui/units";
import type { LiveChange, StandingRow, Standings } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { changesBetween, tieNotes } from "./changes";
import { Doubts } from "./doubts";
import { SHORT_HASH } from "./short-hash";
import styles from "./standings.module.css";

const markText = (value: number, system: UnitSystem) =>
  formatQuantity(value, "distance", system, { digits: 2 });

const OUTCOME: Record<string, string> = {
  foul: "foul",
  misfire: "misfire",
  burst: "burst",
  landed: "no mark",
};

/** No place yet: "–"; the others are the trade's own letters. */
const STATUS: Record<StandingRow["status"], string> = {
  ranked: "",
  waiting: "–",
  NM: "NM",
  DNS: "DNS",
  DNF: "DNF",
};

function result(mark: StandingRow["marks"][number] | undefined, system: UnitSystem): string {
  if (!mark || mark.outcome === null) return "–";
  if (mark.mark === null) return OUTCOME[mark.outcome] ?? mark.outcome;
  const aside =
    mark.sector === "outside"
      ? ", outside the sector"
      : mark.sector === "too-close"
        ? ", at the side line"
        : "";
  return `${markText(mark.mark, system)}${aside}`;
}

export function StandingsBoard({ slug, initial }: { slug: string; initial: Standings }) {
  const system = useUnits();
  const [standings, setStandings] = useState(initial);
  const [fresh, setFresh] = useState<ReadonlySet<string>>(new Set());
  const [said, setSaid] = useState("");
  const shown = useRef(initial);

  const show = useCallback(
    (next: Standings) => {
      if (next.sequence < shown.current.sequence) return;
      const changes = changesBetween(shown.current, next);
      shown.current = next;
      setStandings(next);
      if (changes.length === 0) return;
      setFresh(new Set(changes.map(({ entrantId }) => entrantId)));
      setSaid(
        changes
          .map(({ row, round }) => {
            const mark = result(
              row.marks.find((one) => one.round === round),
              system,
            );
            const place = row.rank === null ? "" : ` Place ${row.rank} overall.`;
            return `${row.name}, round ${round}: ${mark}.${place}`;
          })
          .join(" "),
      );
    },
    [system],
  );

  const heard = useLive(`/api/v1/contests/${slug}/live`, initial.sequence, (change: LiveChange) => {
    if (change.standings) show(change.standings);
  });
  const time = heard.at?.toLocaleTimeString("en-GB");
  return (
    <>
      <p className={styles.heard} data-open={heard.open ? "yes" : "no"}>
        {heard.open
          ? `● Live. Last heard ${time}.`
          : heard.at
            ? `○ Not heard since ${time}. Trying again; what stands here may be old.`
            : "○ Connecting…"}
      </p>
      <p aria-live="polite" className={styles.said}>
        {said}
      </p>
      {standings.divisions.length === 0 && <p>No division is made and no team is entered yet.</p>}
      {standings.divisions.map((division) => (
        <Ranking
          key={division.id}
          title={division.name}
          rows={division.rows}
          rounds={standings.rounds}
          system={system}
          fresh={fresh}
        />
      ))}
      <Doubts slug={slug} standings={standings} system={system} />
      {standings.divisions.length > 1 && (
        <Ranking
          title="Overall"
          rows={standings.overall}
          rounds={standings.rounds}
          system={system}
          fresh={fresh}
          withDivision
        />
      )}
      <p className={styles.foot}>
        These standings rest on <a href={`/contests/${slug}/scorebook`}>scorebook</a> entry{" "}
        {standings.sequence}
        {standings.head && (
          <>
            , hash <code title={standings.head}>{standings.head.slice(0, SHORT_HASH)}</code>
          </>
        )}
        . Posted for a round,{" "}
        <a href={`/contests/${slug}/scorebook/head`}>their head is printed and signed</a>.
      </p>
    </>
  );
}

function Ranking({
  title,
  rows,
  rounds,
  system,
  fresh,
  withDivision,
}: {
  title: string;
  rows: readonly StandingRow[];
  rounds: readonly number[];
  system: UnitSystem;
  fresh: ReadonlySet<string>;
  withDivision?: boolean;
}) {
  const notes = tieNotes(rows);
  return (
    <div className="table-frame" role="region" aria-label={title} tabIndex={0}>
      <table className={`table ${styles.ranking}`}>
        <caption>
          <h2>{title}</h2>
        </caption>
        <thead>
          <tr>
            <th scope="col">Place</th>
            <th scope="col">Team</th>
            <th scope="col" className="number">
              Best
            </th>
            {rounds.map((round) => (
              <th key={round} scope="col" className={`number ${styles.wide}`}>
                Round {round}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.length === 0 && (
            <tr>
              <td colSpan={3 + rounds.length}>No team is entered here yet.</td>
            </tr>
          )}
          {rows.map((row) => (
            <tr key={row.entrantId} className={fresh.has(row.entrantId) ? styles.fresh : undefined}>
              <td className={styles.place}>{row.rank ?? STATUS[row.status]}</td>
              <th scope="row">
                <span className={styles.number}>{row.number}</span> {row.name}
                {withDivision && <span className={styles.note}>{row.divisionName}</span>}
                {row.status !== "ranked" && row.rank !== null && (
                  <span className={styles.note}>{STATUS[row.status]}</span>
                )}
                {notes.has(row.entrantId) && <span className={styles.note}>{notes.get(row.entrantId)}</span>}
                <span className={styles.narrow}>
                  {row.marks.map((mark) => (
                    <span key={mark.round}>
                      R{mark.round} {result(mark, system)}
                    </span>
                  ))}
                </span>
              </th>
              <td className={`number ${styles.best}`}>
                {row.best === null ? "–" : markText(row.best, system)}
              </td>
              {rounds.map((round) => (
                <td key={round} className={`number ${styles.wide}`}>
                  {result(
                    row.marks.find((mark) => mark.round === round),
                    system,
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
