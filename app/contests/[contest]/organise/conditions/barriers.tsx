"use client";
/** Barriers that the safety officer signs for: those that stand, and a form for another. */
import { useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { TextField } from "@/app/_ui/field";
import { readPosition } from "@/app/_ui/position";
import { PositionField } from "@/app/_ui/position-field";
import { type Quantity, QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { BarrierInfo } from "@/lib/api/contracts";
import { BarrierTable } from "../../barrier-table";

export function Barriers({
  slug,
  barriers,
  maySign,
}: {
  slug: string;
  barriers: readonly BarrierInfo[];
  maySign: boolean;
}) {
  const system = useUnits();
  const standing = barriers.filter(({ retired }) => !retired);
  const url = `/api/v1/contests/${slug}/barriers`;
  return (
    <>
      <BarrierTable
        barriers={standing}
        system={system}
        empty="No barrier is signed for: nothing stops a throw before the ground."
      />
      {maySign &&
        standing.map(({ id, name }) => (
          <WriteForm
            key={id}
            label={`Retire ${name}`}
            method="PATCH"
            url={`${url}/${id}`}
            fields={["reason"]}
            body={(form) => ({ retired: true, reason: textOf(form, "reason") })}
            submit={`Retire ${name}`}
            look="plain"
          >
            {(errorFor) => (
              <TextField
                id={`retire-${id}`}
                name="reason"
                label={`Why ${name} no longer counts`}
                required
                error={errorFor("reason")}
              />
            )}
          </WriteForm>
        ))}
      {maySign && <SignForm url={url} />}
    </>
  );
}

const NOTHING = { from: "", to: "" };

function SignForm({ url }: { url: string }) {
  const system = useUnits();
  const [ends, setEnds] = useState(NOTHING);
  const [height, setHeight] = useState<Quantity>(() => quantityOf(undefined, "distance", system));
  const [times, setTimes] = useState(0);
  return (
    <WriteForm
      key={times}
      label="Sign for a barrier"
      url={url}
      fields={["name", "height", "geometry", "geometry.coordinates", "reason"]}
      body={(form) => {
        const [from, to] = [readPosition(ends.from), readPosition(ends.to)];
        if (!from.ok) return `One end. ${from.message}`;
        if (!to.ok) return `The other end. ${to.message}`;
        if (height.value === null) return "Height: enter a number.";
        return {
          name: textOf(form, "name"),
          geometry: {
            type: "LineString",
            coordinates: [from, to].map(({ position }) => [position.longitude, position.latitude]),
          },
          height: height.value,
          reason: textOf(form, "reason"),
        };
      }}
      submit="Sign for this barrier"
      done={() => <p>Signed. Sheets are being computed anew.</p>}
      onDone={() => {
        setEnds(NOTHING);
        setHeight(quantityOf(undefined, "distance", system));
        setTimes((count) => count + 1);
      }}
    >
      {(errorFor) => (
        <>
          <Caution kind="mandatory" title="your signature lets people stand behind it">
            <p>
              Only what flies lower than it with every margin is taken as stopped. That it holds a projectile
              at full speed, and that nobody leans over it, is for you to know: test it, and follow local
              codes.
            </p>
          </Caution>
          <TextField id="barrier-name" name="name" label="Name" required error={errorFor("name")} />
          <PositionField
            id="barrier-from"
            label="One end: latitude, longitude"
            text={ends.from}
            onChange={(from) => setEnds((both) => ({ ...both, from }))}
            error={errorFor("geometry.coordinates") ?? errorFor("geometry")}
          />
          <PositionField
            id="barrier-to"
            label="The other end: latitude, longitude"
            text={ends.to}
            onChange={(to) => setEnds((both) => ({ ...both, to }))}
          />
          <QuantityField
            id="barrier-height"
            label="Height of its top above the ground"
            fieldName="Height"
            dimension="distance"
            quantity={height}
            onChange={setHeight}
            error={errorFor("height")}
          />
          <TextField
            id="barrier-reason"
            name="reason"
            label="What it is made of, and how it was tested"
            help="Stands in the scorebook for good."
            required
            error={errorFor("reason")}
          />
        </>
      )}
    </WriteForm>
  );
}
