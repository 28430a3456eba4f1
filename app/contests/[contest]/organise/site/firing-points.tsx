"use client";
import { useState } from "react";
import { TextField } from "@/app/_ui/field";
import { readPosition } from "@/app/_ui/position";
import { PositionField } from "@/app/_ui/position-field";
import { Table } from "@/app/_ui/table";
import { coordinates } from "@/app/_ui/words";
import { numberOrNothing, textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ContestOverview } from "@/lib/api/contracts";

type FiringPoint = ContestOverview["firingPoints"][number];

export function FiringPointList({
  slug,
  firingPoints,
  mayChange,
}: {
  slug: string;
  firingPoints: readonly FiringPoint[];
  mayChange: boolean;
}) {
  return (
    <Table
      caption="Firing points"
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
        { key: "place", head: "Latitude, longitude", cell: (point) => coordinates(point) },
        { key: "height", head: "Height above ellipsoid", number: true, cell: ({ height }) => `${height} m` },
        ...(mayChange
          ? [
              {
                key: "move",
                head: "Move",
                cell: (point: FiringPoint) => (
                  <details>
                    <summary aria-label={`Move firing point ${point.number}`}>Move</summary>
                    <Move slug={slug} point={point} />
                  </details>
                ),
              },
            ]
          : []),
      ]}
    />
  );
}

function Move({ slug, point }: { slug: string; point: FiringPoint }) {
  const [text, setText] = useState(coordinates(point));
  return (
    <WriteForm
      label={`Move firing point ${point.number}`}
      method="PATCH"
      url={`/api/v1/contests/${slug}/firing-points/${point.id}`}
      fields={["latitude", "longitude"]}
      body={() => {
        const read = readPosition(text);
        return read.ok ? read.position : read.message;
      }}
      submit={`Move firing point ${point.number}`}
      look="plain"
      done={() => <p>Moved.</p>}
    >
      {(errorFor) => (
        <PositionField
          id={`move-${point.id}`}
          text={text}
          onChange={setText}
          error={errorFor("latitude") ?? errorFor("longitude")}
        />
      )}
    </WriteForm>
  );
}

export function FiringPointForm({ slug }: { slug: string }) {
  const [text, setText] = useState("");
  return (
    <>
      <h3>Add a firing point</h3>
      <WriteForm<FiringPoint>
        label="Add a firing point"
        url={`/api/v1/contests/${slug}/firing-points`}
        fields={["number", "name", "latitude", "longitude", "height"]}
        body={(form) => {
          const read = readPosition(text);
          if (!read.ok) return read.message;
          return {
            ...read.position,
            ...numberOrNothing(form, "number"),
            ...numberOrNothing(form, "height"),
            name: textOf(form, "name"),
          };
        }}
        submit="Add the firing point"
        done={({ number }) => <p>Firing point {number} is on the map.</p>}
        onDone={() => setText("")}
      >
        {(errorFor) => (
          <>
            <PositionField
              id="point-position"
              text={text}
              onChange={setText}
              error={errorFor("latitude") ?? errorFor("longitude")}
            />
            <TextField
              id="point-number"
              name="number"
              label="Number"
              help="The next free one if left empty."
              optional
              inputMode="numeric"
              error={errorFor("number")}
            />
            <TextField id="point-name" name="name" label="Name" optional error={errorFor("name")} />
            <TextField
              id="point-height"
              name="height"
              label="Height of the ground, metres above the ellipsoid"
              help="The contest’s if left empty."
              optional
              inputMode="decimal"
              error={errorFor("height")}
            />
          </>
        )}
      </WriteForm>
    </>
  );
}
