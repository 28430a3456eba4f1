"use client";
import { useState } from "react";
import { SelectField } from "@/app/_ui/field";
import { QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ContestOverview, MachinePage } from "@/lib/api/contracts";
import { normalBearing } from "@/lib/earth/bearing";

export function PlaceForm({
  slug,
  machine,
  firingPoints,
}: {
  slug: string;
  machine: MachinePage["machine"];
  firingPoints: ContestOverview["firingPoints"];
}) {
  const system = useUnits();
  const [point, setPoint] = useState(machine.firingPointId ?? "");
  const [bearing, setBearing] = useState(quantityOf(machine.bearing, "angle", system));
  return (
    <WriteForm<MachinePage["machine"]>
      label="Place the machine"
      method="PATCH"
      url={`/api/v1/contests/${slug}/machines/${machine.id}/placement`}
      fields={["firingPointId", "bearing"]}
      body={() => {
        if (point !== "" && bearing.value === null) return "Bearing: enter it in degrees from true north.";
        return {
          firingPointId: point === "" ? null : point,
          bearing: bearing.value === null ? null : normalBearing(bearing.value),
        };
      }}
      submit="Place it"
      done={(placed) => (
        <p>
          {placed.firingPointId && placed.bearing !== null
            ? `Placed, on bearing ${bearingText(placed.bearing)}. Look at its zone on the map.`
            : "Taken off the firing line."}
        </p>
      )}
    >
      {(errorFor) => (
        <>
          <SelectField
            id="place-point"
            label="Firing point"
            value={point}
            onChange={(event) => setPoint(event.target.value)}
            error={errorFor("firingPointId")}
            choices={[
              { value: "", label: "Not on the firing line" },
              ...firingPoints.map(({ id, number, name }) => ({
                value: id,
                label: `${number} ${name}`.trim(),
              })),
            ]}
          />
          <QuantityField
            id="place-bearing"
            label="Bearing"
            fieldName="Bearing"
            dimension="angle"
            quantity={bearing}
            onChange={setBearing}
            optional={point === ""}
            help="Degrees from true north on which it throws."
            error={errorFor("bearing")}
          />
        </>
      )}
    </WriteForm>
  );
}
