"use client";
/** One part of the machine: its loads in each life, what is left, what was taken for granted, what would help. */
import Link from "next/link";
import { factor, Verdict } from "@/app/_ui/hazard-sheet/breaks";
import { instantText, stationText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Help, leastReserve, type PartLoad } from "@/lib/throw";
import { helpText, scopeText } from "./help-words";
import { inFilm, LIFE_WORDS, PART_WORDS, quantityText } from "./part-words";
import styles from "./strength.module.css";

export function PartPanel({
  rows,
  taken,
  help,
  seeking,
  system,
}: {
  /** Of one part, never empty. */
  rows: readonly PartLoad[];
  /** What was taken for granted of this part beside its strength. */
  taken: string | null;
  help: readonly Help[];
  seeking: boolean;
  system: UnitSystem;
}) {
  const [first] = rows;
  if (!first) return null;
  const { title, checks } = PART_WORDS[first.part];
  const least = leastReserve(rows);
  const worst = rows.find(({ reserve }) => reserve.reserve === least) ?? first;
  return (
    <section className={`${styles.part} ${styles.bearing}`} aria-labelledby={`part-${first.part}`}>
      <h3 id={`part-${first.part}`}>{title}</h3>
      <p className={styles.least}>
        {least === null ? (
          "No reserve is known."
        ) : (
          <>
            Least reserve: <strong>{factor(least)}</strong>, {LIFE_WORDS[worst.life].toLowerCase()}.
          </>
        )}
      </p>
      <Table
        caption={`${title}: loads against what bears them`}
        hideCaption
        stacks
        rows={rows}
        rowKey={({ life }) => life}
        columns={[
          { key: "life", head: "When it", rowHead: true, cell: ({ life }) => LIFE_WORDS[life] },
          {
            key: "load",
            head: "Largest load",
            number: true,
            cell: (row) => quantityText(row.reserve.load, row, system),
          },
          {
            key: "bears",
            head: "Bears",
            number: true,
            cell: (row) =>
              row.reserve.strength === null ? "–" : quantityText(row.reserve.strength, row, system),
          },
          {
            key: "reserve",
            head: "Reserve",
            number: true,
            cell: ({ reserve }) => (reserve.reserve === null ? "–" : factor(reserve.reserve)),
          },
          { key: "verdict", head: "In words", cell: ({ reserve }) => <Verdict {...reserve} /> },
          { key: "when", head: "Peaks", cell: (row) => <Instant row={row} system={system} /> },
        ]}
      />
      <p className={styles.small}>
        {first.reserve.strength === null ? "For a reserve: " : "Assumed: "}
        {first.reserve.explanation} {taken && `${taken} `}Who must check: {checks}.
      </p>
      <WhatHelps rows={rows} help={help} seeking={seeking} system={system} />
    </section>
  );
}

function Instant({ row, system }: { row: PartLoad; system: UnitSystem }) {
  const { time, station, jerk } = row;
  if (time === null) return "–";
  const place = [
    station === null ? "" : stationText(station, system),
    jerk ? "the jerk as the slack sling comes taut" : "",
  ].filter(Boolean);
  return (
    <>
      {inFilm(row) ? (
        <Link className={styles.instant} href={`/workbench/film?t=${time.toFixed(4)}`}>
          {instantText(time)}
          <span className="aloud"> in the film: {LIFE_WORDS[row.life].toLowerCase()}</span>
        </Link>
      ) : (
        instantText(time)
      )}
      {place.length > 0 ? `, ${place.join(", ")}` : ""}
    </>
  );
}

function WhatHelps({
  rows,
  help,
  seeking,
  system,
}: {
  rows: readonly PartLoad[];
  help: readonly Help[];
  seeking: boolean;
  system: UnitSystem;
}) {
  if (help.length === 0)
    return seeking ? <p className={styles.small}>What would help is being worked out…</p> : null;
  const designFactor = rows[0]?.reserve.designFactor ?? 1;
  const scopes = (["meant", "all"] as const)
    .map((scope) => help.filter((each) => each.scope === scope))
    .filter((each) => each.length > 0);
  return (
    <div className={styles.help}>
      <h4>What would reach the usual factor of {designFactor}</h4>
      <ul>
        {scopes.map((items) => (
          <li key={items[0]?.scope}>
            {items[0] ? `${scopeText(items[0], rows)}: ` : ""}
            {items.map((each) => helpText(each, designFactor, system)).join(" ")}
          </li>
        ))}
      </ul>
    </div>
  );
}
