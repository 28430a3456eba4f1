"use client";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ContestOverview } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { kindTitle } from "../../map/scene-of";

type Feature = ContestOverview["features"][number];

const corners = ({ geometry }: Feature) =>
  geometry.type === "Point"
    ? "point"
    : geometry.type === "LineString"
      ? `line of ${geometry.coordinates.length} points`
      : `area of ${(geometry.coordinates[0]?.length ?? 1) - 1} corners`;

export function FeatureList({
  slug,
  features,
  mayChange,
}: {
  slug: string;
  features: readonly Feature[];
  mayChange: boolean;
}) {
  const system = useUnits();
  return (
    <Table
      caption="Site features"
      hideCaption
      rows={features}
      rowKey={({ id }) => id}
      empty="Nothing is laid out yet. Begin with the boundary: what leaves it is always a conflict."
      columns={[
        { key: "name", head: "Name", rowHead: true, cell: ({ name }) => name },
        { key: "kind", head: "Kind", cell: ({ kind }) => kindTitle(kind) },
        { key: "shape", head: "Shape", cell: corners },
        {
          key: "standOff",
          head: "Stand-off",
          number: true,
          cell: ({ standOff }) =>
            standOff === null ? "by its kind" : formatQuantity(standOff, "distance", system),
        },
        {
          key: "state",
          head: "State",
          cell: ({ id, name, retired }) =>
            mayChange ? (
              <WriteForm
                label={`${retired ? "Bring back" : "Retire"} ${name}`}
                method="PATCH"
                url={`/api/v1/contests/${slug}/features/${id}`}
                body={() => ({ retired: !retired })}
                submit={retired ? "Bring back" : "Retire"}
                look="plain"
              >
                {() => (retired ? <p>Retired: protects nothing.</p> : null)}
              </WriteForm>
            ) : retired ? (
              "retired"
            ) : (
              "on the map"
            ),
        },
      ]}
    />
  );
}
