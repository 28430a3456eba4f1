"use client";
/** Who must move, or stay under cover, when a machine fires: one table a machine, to read and to tick off on paper. */
import Link from "next/link";
import type { ZoneProperties } from "@/lib/api/contracts";
import { lackOfSheet } from "@/lib/api/contracts/machines";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Caution, SafetySign } from "../caution";
import { Table } from "../table";
import { kindTitle } from "./scene-of";
import styles from "./zones.module.css";

type Entry = ZoneProperties["standClear"][number];

/** What is to be done there, before this machine fires. */
const DUTIES: Partial<Record<string, string>> = {
  "crew-shelter": "under cover, or empty",
  road: "closed and watched",
  path: "closed and watched",
};

/** What is less would be written as nothing, m or m². */
const LEAST = 0.5;

function whereWords(entry: Entry, system: UnitSystem): string {
  const depth = `${formatQuantity(entry.depth, "distance", system, { digits: entry.depth < 10 ? 1 : 0 })} deep`;
  if (entry.length >= LEAST)
    return `${formatQuantity(entry.length, "distance", system, { digits: 0 })} of its length, ${depth}`;
  if (entry.area >= LEAST)
    return `${formatQuantity(entry.area, "area", system, { digits: 0 })} of it, ${depth}`;
  return depth;
}

export function StandClearList({
  zones,
  system,
  slug,
}: {
  zones: readonly ZoneProperties[];
  system: UnitSystem;
  /** Of the contest, to lead to the lists for paper; left out on that page itself, which has boxes to tick. */
  slug?: string;
}) {
  if (zones.length === 0) return null;
  return (
    <section aria-labelledby="stand-clear-title" className={styles.standClear}>
      <h2 id="stand-clear-title">Stand-clear lists</h2>
      <p className={styles.duty}>
        <SafetySign kind="mandatory" size={26} />
        <span>
          Before a machine fires, everybody on its list is out of its zone, or where the list says so under
          cover. “Deep” is how far it is from there to the nearest way out.
        </span>
      </p>
      {slug && (
        <p>
          <Link href={`/contests/${slug}/stand-clear`}>The lists on paper, with boxes to tick</Link>
        </p>
      )}
      {zones.map((zone) => {
        if (zone.exclusion === null) return <NoList key={zone.machineId} zone={zone} />;
        const when = `When ${zone.machineName} fires from firing point ${zone.firingPointNumber}`;
        const table = (
          <ListOf key={zone.machineId} zone={zone} caption={when} system={system} paper={!slug} />
        );
        // A page of many machines is folded; on paper, and for one machine, all is open.
        return slug && zones.length > 1 ? (
          <details key={zone.machineId} className={styles.standClearOf}>
            <summary>
              {when}:{" "}
              {zone.standClear.length === 0 ? "nobody on this map" : `${zone.standClear.length} to clear`}
            </summary>
            {table}
          </details>
        ) : (
          <div key={zone.machineId} className={styles.standClearOf}>
            {table}
          </div>
        );
      })}
    </section>
  );
}

/** In place of the list of a machine whose zone is not there. */
function NoList({ zone }: { zone: ZoneProperties }) {
  return (
    <div className={styles.standClearOf}>
      <Caution title={`no list for ${zone.machineName}`}>
        <p>
          {lackOfSheet(zone)} So nobody has worked out who must move when it fires from firing point{" "}
          {zone.firingPointNumber}. It must not fire, and this list is to be printed again when there is one.
        </p>
      </Caution>
    </div>
  );
}

function ListOf({
  zone,
  caption,
  system,
  paper,
}: {
  zone: ZoneProperties;
  caption: string;
  system: UnitSystem;
  paper: boolean;
}) {
  return (
    <Table
      caption={caption}
      rows={zone.standClear}
      rowKey={({ what, id }) => `${what} ${id}`}
      empty="No firing point, shelter, post or path on this map lies in its zone."
      columns={[
        {
          key: "name",
          head: "Who or what",
          rowHead: true,
          cell: (entry) =>
            entry.machines.length > 0
              ? `${entry.name}: ${entry.machines.map(({ machineName }) => machineName).join(", ")}`
              : entry.name,
        },
        {
          key: "kind",
          head: "Kind",
          cell: (entry) => (entry.kind === null ? "Firing point" : kindTitle(entry.kind)),
        },
        { key: "where", head: "In the zone", cell: (entry) => whereWords(entry, system) },
        {
          key: "duty",
          head: "Before it fires",
          cell: (entry) => (entry.kind && DUTIES[entry.kind]) || "clear",
        },
        ...(!paper
          ? []
          : [
              {
                key: "done",
                head: "Done",
                cell: () => <span className={styles.tick} role="img" aria-label="box to tick on paper" />,
              },
            ]),
      ]}
    />
  );
}
