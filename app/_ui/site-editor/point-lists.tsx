"use client";
import { formatQuantity } from "@/lib/units";
/** Firing points, control points and heights of the ground, each with the way to change it. */
import { Button } from "../button";
import { Table } from "../table";
import { useUnits } from "../units";
import { bearingText, coordinates } from "../words";
import type { LaidOut, PointItem } from "./draft";
import type { SiteOf } from "./draft-fields";
import type { Tools } from "./feature-list";
import styles from "./site-editor.module.css";

interface Props extends Omit<LaidOut, "features"> {
  of: SiteOf;
  tools: Tools;
}

export function PointLists({ of, firingPoints, controlPoints, spotHeights, tools }: Props) {
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
      `${metres(point.height, 1)}${point.heightGiven === false ? `, the ${of}’s` : ""}`,
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
        {of === "yard"
          ? "Where the machine may stand, and which way it throws from there."
          : "Where machines stand. A point from which a shot was measured is not moved: lay out a new one. One on which a machine stands is not retired."}
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
          ...(of === "yard"
            ? [
                {
                  key: "bearing",
                  head: "Bearing",
                  number: true,
                  cell: ({ bearing }: { bearing?: number }) =>
                    bearing === undefined ? "–" : bearingText(bearing),
                },
              ]
            : []),
          place,
          height,
          accuracy,
          {
            key: "change",
            head: tools ? "Change" : "State",
            cell: ({ id, number, retired = false }) => (
              <Change
                item="firing-point"
                id={id}
                name={`firing point ${number}`}
                retired={retired}
                meaning="Retired: nothing stands there."
                tools={tools}
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
            head: tools ? "Change" : "State",
            cell: ({ id, name, retired }) => (
              <Change
                item="control-point"
                id={id}
                name={`control point ${name}`}
                retired={retired}
                meaning="Retired: nothing is measured from it."
                tools={tools}
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
            head: tools ? "Change" : "State",
            cell: (spot) => (
              <Change
                item="spot-height"
                id={spot.id}
                name={`height ${metres(spot.height, 1)} at ${coordinates(spot)}`}
                retired={spot.retired}
                meaning="Retired: describes no ground."
                tools={tools}
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
  id,
  name,
  retired,
  meaning,
  tools,
}: {
  item: PointItem;
  id: string;
  name: string;
  retired: boolean;
  meaning: string;
  tools: Tools;
}) {
  if (!tools) return retired ? "retired" : "on the map";
  return (
    <span className={styles.rowTools}>
      {!retired && (
        <Button aria-label={`Change ${name}`} onClick={() => tools.edit(item, id)}>
          Change
        </Button>
      )}
      {tools.away({ item, id, name, retired, meaning })}
    </span>
  );
}
