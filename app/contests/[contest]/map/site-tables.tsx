"use client";
/** The tables that say what the map says, for those who cannot see it or want the figures. */
import { otherSystem } from "@/app/_ui/both-units";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { Table } from "@/app/_ui/table";
import { bearingText, coordinates } from "@/app/_ui/words";
import { conflictWords } from "@/app/_ui/zones/conflict-words";
import { kindTitle, type Site } from "@/app/_ui/zones/scene-of";
import type { ZoneProperties } from "@/lib/api/contracts";
import { localPlane } from "@/lib/earth";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { type ZoneDistances, zoneDistances } from "@/lib/zones/zone-distances";
import styles from "./map-page.module.css";
import { nearestPlace } from "./nearest";

function ControlPointTable({ controlPoints, system }: Pick<Site, "controlPoints"> & { system: UnitSystem }) {
  const rows = controlPoints.filter(({ retired }) => !retired);
  if (rows.length === 0) return null;
  return (
    <Table
      caption="Control points"
      rows={rows}
      rowKey={({ id }) => id}
      columns={[
        { key: "name", head: "Control point", rowHead: true, cell: ({ name }) => name },
        { key: "place", head: "Latitude, longitude", cell: (point) => coordinates(point) },
        {
          key: "accuracy",
          head: "Accuracy",
          number: true,
          cell: ({ accuracy }) => `±${formatQuantity(accuracy, "distance", system, { digits: 2 })}`,
        },
      ]}
    />
  );
}

function SpotHeightTable({ spotHeights, system }: Pick<Site, "spotHeights"> & { system: UnitSystem }) {
  const rows = spotHeights.filter(({ retired }) => !retired);
  if (rows.length === 0) return null;
  return (
    <Table
      caption="Heights of the ground"
      rows={rows}
      rowKey={({ id }) => id}
      columns={[
        { key: "place", head: "Latitude, longitude", rowHead: true, cell: (spot) => coordinates(spot) },
        {
          key: "height",
          head: "Height above ellipsoid",
          number: true,
          cell: ({ height }) => formatQuantity(height, "distance", system, { digits: 1 }),
        },
      ]}
    />
  );
}

export function SiteTables({
  site,
  zones,
  system,
}: {
  site: Site;
  zones: readonly ZoneProperties[];
  system: UnitSystem;
}) {
  const distance = (value: number) => keepOffBoth(value, system);
  const reach = ({ exclusion, accuracy }: ZoneProperties, which: keyof ZoneDistances) =>
    exclusion ? distance(zoneDistances(exclusion, accuracy)[which]) : "not computed";
  const other = otherSystem(system);
  const features = site.features.filter(({ retired }) => !retired);
  const firingPoints = site.firingPoints.filter(({ retired }) => !retired);
  const [from] = firingPoints;
  /** All that are in conflict, or else the nearest one. */
  const featuresOf = ({ conflicts, exclusion }: ZoneProperties) => {
    if (!exclusion) return "–";
    const wrong = conflicts.filter(({ inConflict }) => inConflict);
    const told = wrong.length > 0 ? wrong : conflicts.filter(({ distance }) => distance > 0).slice(0, 1);
    return told
      .map((conflict) =>
        conflict.inConflict
          ? `${conflict.name}: the zone ${conflictWords(conflict, system)} (${conflictWords(conflict, other)})`
          : `none touched; nearest ${conflict.name}, ${distance(conflict.distance)} away`,
      )
      .join("; ");
  };
  return (
    <>
      <h2>The same in tables</h2>
      <div id="zones-table">
        <Table
          caption="Keep-out zones"
          stacks
          rows={zones}
          rowKey={(zone) => zone.machineId}
          empty="No machine is placed yet."
          columns={[
            { key: "machine", head: "Machine", rowHead: true, cell: (zone) => zone.machineName },
            { key: "point", head: "Firing point", number: true, cell: (zone) => zone.firingPointNumber },
            { key: "bearing", head: "Bearing", number: true, cell: (zone) => bearingText(zone.bearing) },
            {
              key: "forward",
              head: "Forward",
              number: true,
              cell: (zone) => reach(zone, "forward"),
            },
            {
              key: "backward",
              head: "Backward",
              number: true,
              cell: (zone) => reach(zone, "backward"),
            },
            { key: "side", head: "Side", number: true, cell: (zone) => reach(zone, "side") },
            {
              key: "nearest",
              head: "Protected features",
              cell: (zone) => <span className={styles.long}>{featuresOf(zone)}</span>,
            },
          ]}
        />
      </div>
      <Table
        caption="Firing points"
        rows={firingPoints}
        rowKey={({ id }) => id}
        empty="No firing point is laid out yet."
        columns={[
          {
            key: "number",
            head: "Firing point",
            rowHead: true,
            cell: (point) => `${point.number} ${point.name}`.trim(),
          },
          {
            key: "machines",
            head: "Machines",
            cell: (point) =>
              zones
                .filter(({ firingPointId }) => firingPointId === point.id)
                .map(({ machineName }) => machineName)
                .join(", ") || "–",
          },
          { key: "place", head: "Latitude, longitude", cell: (point) => coordinates(point) },
        ]}
      />
      <ControlPointTable controlPoints={site.controlPoints} system={system} />
      <SpotHeightTable spotHeights={site.spotHeights} system={system} />
      <Table
        caption="Site features"
        stacks
        rows={features}
        rowKey={({ id }) => id}
        empty="No site feature is laid out yet."
        columns={[
          { key: "name", head: "Name", rowHead: true, cell: (feature) => feature.name },
          { key: "kind", head: "Kind", cell: (feature) => kindTitle(feature.kind) },
          {
            key: "where",
            head: from ? `Nearest to firing point ${from.number}` : "Nearest",
            cell: (feature) => {
              if (!from) return "–";
              const near = nearestPlace(feature.geometry, localPlane(from));
              return `${distance(near.distance)} on ${bearingText(near.bearing)}`;
            },
          },
          {
            key: "touched",
            head: "Touched or too near",
            cell: (feature) =>
              zones
                .filter((zone) =>
                  zone.conflicts.some(({ featureId, inConflict }) => inConflict && featureId === feature.id),
                )
                .map(({ machineName }) => machineName)
                .join("; ") || "–",
          },
        ]}
      />
    </>
  );
}
