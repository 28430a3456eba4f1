"use client";
/** Firing points, control points and heights of the ground, each with the way to change it. */
import { Button } from "@/app/_ui/button";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { coordinates } from "@/app/_ui/words";
import type { ContestOverview } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { Retire } from "../retire";
import type { PointItem } from "./draft";
import styles from "./site.module.css";

type Points = Pick<ContestOverview, "firingPoints" | "controlPoints" | "spotHeights">;

interface Props extends Points {
  slug: string;
  /** Null where the reader may not change anything. */
  onEdit: ((item: PointItem, id: string) => void) | null;
}

export function PointLists({ slug, firingPoints, controlPoints, spotHeights, onEdit }: Props) {
  const system = useUnits();
  const metres = (value: number, digits: number) => formatQuantity(value, "distance", system, { digits });
  const place = {
    key: "place",
    head: "Latitude, longitude",
    cell: (point: { latitude: number; longitude: number }) => coordinates(point),
  };
  const height = {
    key: "height",
    head: "Height above ellipsoid",
    number: true,
    cell: (point: { height: number; heightGiven?: boolean | undefined }) =>
      `${metres(point.height, 1)}${point.heightGiven === false ? ", the contest’s" : ""}`,
  };
  const accuracy = {
    key: "accuracy",
    head: "Accuracy",
    number: true,
    cell: (point: { accuracy: number }) => `±${metres(point.accuracy, 2)}`,
  };
  return (
    <>
      <h2>Firing points</h2>
      <p>
        Where machines stand. A point from which a shot was measured is not moved: lay out a new one. One on
        which a machine stands is not retired.
      </p>
      <Table
        caption="Firing points"
        stacks
        hideCaption
        rows={firingPoints}
        rowKey={({ id }) => id}
        empty="No firing point is laid out yet."
        columns={[
          {
            key: "number",
            head: "Number",
            rowHead: true,
            cell: ({ number, name }) => `${number} ${name}`.trim(),
          },
          place,
          height,
          accuracy,
          {
            key: "change",
            head: onEdit ? "Change" : "State",
            cell: ({ id, number, retired = false }) => (
              <Change
                item="firing-point"
                url={`/api/v1/contests/${slug}/firing-points/${id}`}
                id={id}
                name={`firing point ${number}`}
                retired={retired}
                meaning="Retired: nothing stands there."
                onEdit={onEdit}
              />
            ),
          },
        ]}
      />
      <h2>Control points</h2>
      <p>Surveyed pegs, from which firing points, corners and landing points are measured.</p>
      <Table
        caption="Control points"
        stacks
        hideCaption
        rows={controlPoints}
        rowKey={({ id }) => id}
        empty="No control point is laid out yet."
        columns={[
          {
            key: "name",
            head: "Name",
            rowHead: true,
            cell: ({ name, note }) => (note ? `${name}: ${note}` : name),
          },
          place,
          height,
          accuracy,
          {
            key: "change",
            head: onEdit ? "Change" : "State",
            cell: ({ id, name, retired }) => (
              <Change
                item="control-point"
                url={`/api/v1/contests/${slug}/control-points/${id}`}
                id={id}
                name={`control point ${name}`}
                retired={retired}
                meaning="Retired: nothing is measured from it."
                onEdit={onEdit}
              />
            ),
          },
        ]}
      />
      <h2>Heights of the ground</h2>
      <p>Measured heights say how the ground falls away under a throw. Without any it is taken as level.</p>
      <Table
        caption="Heights of the ground"
        stacks
        hideCaption
        rows={spotHeights}
        rowKey={({ id }) => id}
        empty="No height is entered yet."
        columns={[
          { ...place, rowHead: true },
          height,
          {
            key: "change",
            head: onEdit ? "Change" : "State",
            cell: (spot) => (
              <Change
                item="spot-height"
                url={`/api/v1/contests/${slug}/spot-heights/${spot.id}`}
                id={spot.id}
                name={`height ${metres(spot.height, 1)} at ${coordinates(spot)}`}
                retired={spot.retired}
                meaning="Retired: describes no ground."
                onEdit={onEdit}
              />
            ),
          },
        ]}
      />
    </>
  );
}

function Change({
  item,
  url,
  id,
  name,
  retired,
  meaning,
  onEdit,
}: {
  item: PointItem;
  url: string;
  id: string;
  name: string;
  retired: boolean;
  meaning: string;
  onEdit: Props["onEdit"];
}) {
  if (!onEdit) return retired ? "retired" : "on the map";
  return (
    <span className={styles.rowTools}>
      {!retired && (
        <Button aria-label={`Change ${name}`} onClick={() => onEdit(item, id)}>
          Change
        </Button>
      )}
      <Retire url={url} name={name} retired={retired} meaning={meaning} />
    </span>
  );
}
