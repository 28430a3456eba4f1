"use client";
import { LocalTime } from "@/app/_ui/local-time";
/** What the map shows, in words: the way from known places, and who saw what. */
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import type { ContestOverview, ShotInfo } from "@/lib/api/contracts";
import { type RoughPoint, wayThere } from "@/lib/survey";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "./splash.module.css";

type Places = Pick<ContestOverview, "firingPoints" | "controlPoints">;

/** The firing point, and the peg that stands nearest to the point: without a position the way is paced from there. */
export function knownPlaces(
  { firingPointId }: ShotInfo,
  { firingPoints, controlPoints }: Places,
  point: RoughPoint,
  height: number,
) {
  const firingPoint = firingPoints.find(({ id }) => id === firingPointId);
  const pegs = controlPoints
    .filter(({ retired }) => !retired)
    .map((peg) => ({ name: `Peg ${peg.name}`, ...wayThere(peg, 0, point, height) }))
    .sort((a, b) => a.distance - b.distance);
  return [
    ...(firingPoint
      ? [{ name: `Firing point ${firingPoint.number}`, ...wayThere(firingPoint, 0, point, height) }]
      : []),
    ...pegs.slice(0, 1),
  ];
}

export function WayTable({ places, system }: { places: ReturnType<typeof knownPlaces>; system: UnitSystem }) {
  return (
    <Table
      caption="From known places"
      rows={places}
      rowKey={({ name }) => name}
      empty="No known place."
      columns={[
        { key: "from", head: "From", rowHead: true, cell: ({ name }) => name },
        {
          key: "distance",
          head: "Distance",
          cell: ({ distance, uncertainty }) =>
            `${formatQuantity(distance, "distance", system, { digits: 0 })} ± ${formatQuantity(uncertainty, "distance", system, { digits: 0 })}`,
        },
        {
          key: "true-bearing",
          head: "True bearing",
          cell: ({ bearing }) => bearingText(Math.round(bearing) % 360),
        },
      ]}
    />
  );
}

export function SightingTable({ id, shot }: { id: string; shot: ShotInfo }) {
  return (
    <div id={id} className={styles.sightings}>
      <Table
        caption="Sightings, with their standard uncertainty"
        rows={shot.sightings}
        rowKey={({ id: sighting }) => sighting}
        empty="No sighting."
        columns={[
          { key: "post", head: "Post", rowHead: true, cell: ({ postName }) => postName },
          {
            key: "true-bearing",
            head: "True bearing",
            cell: ({ trueBearing, uncertainty }) =>
              trueBearing === null ? "not seen" : `${bearingText(trueBearing)} ± ${uncertainty}°`,
          },
          { key: "by", head: "By", cell: ({ way, by }) => `${way}, ${by}` },
          { key: "seen", head: "Seen", cell: ({ observedAt }) => <LocalTime iso={observedAt} /> },
        ]}
      />
    </div>
  );
}
