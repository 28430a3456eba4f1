"use client";
/** On which firing point the machine stands, and which way it throws. */
import { useEffect, useState } from "react";
import { SelectField } from "@/app/_ui/field";
import { type Quantity, QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import { isRefusal } from "@/lib/contest/errors";
import { aimed } from "./changes";
import { pointOf, type Yard } from "./yard";

interface AimProps {
  yard: Yard;
  onChange: (yard: Yard) => void;
  /** Told whether what is typed is another bearing than the one that counts: no zone is of it. */
  onTurning: (turning: boolean) => void;
}

export function Aim({ yard, onChange, onTurning }: AimProps) {
  const point = pointOf(yard);
  if (!point)
    return (
      <p>
        No firing point is laid out yet. Choose “Firing point” above, place it, and give its bearing: the zone
        is drawn from there.
      </p>
    );
  return (
    <div className="field-grid">
      <SelectField
        id="yard-point"
        label="The machine stands on"
        value={point.id}
        onChange={(event) => onChange(aimed(yard, event.target.value, null))}
        choices={yard.firingPoints.map(({ id, number, name }) => ({
          value: id,
          label: `Firing point ${number} ${name}`.trim(),
        }))}
      />
      <BearingField key={point.id} yard={yard} onChange={onChange} onTurning={onTurning} />
    </div>
  );
}

function BearingField({ yard, onChange, onTurning }: AimProps) {
  const system = useUnits();
  const point = pointOf(yard);
  const bearing = point?.bearing ?? null;
  const [typed, setTyped] = useState<Quantity>(() => quantityOf(bearing, "angle", system));
  const [wrong, setWrong] = useState<string | null>(null);
  // Undone, turned by a cure, or changed in another tab.
  useEffect(() => {
    setTyped((now) => (now.value === bearing ? now : quantityOf(bearing, "angle", system)));
    setWrong(null);
  }, [bearing, system]);
  const turning = bearing !== null && typed.value !== bearing;
  useEffect(() => {
    onTurning(turning);
    return () => onTurning(false);
  }, [turning, onTurning]);
  if (!point) return null;
  const settle = () => {
    if (typed.value === null || typed.value === bearing) return;
    try {
      onChange(aimed(yard, point.id, typed.value));
    } catch (error) {
      if (!isRefusal(error)) throw error;
      setWrong("Bearing: enter degrees true from 0 to below 360, clockwise from north.");
    }
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Enter settles what is typed, as leaving the field does
    <div onKeyDown={(event) => event.key === "Enter" && settle()}>
      <QuantityField
        id="yard-bearing"
        label="Bearing"
        fieldName="Bearing"
        dimension="angle"
        quantity={typed}
        onChange={setTyped}
        onBlur={settle}
        help="Which way it throws, degrees true, clockwise from north."
        error={wrong}
      />
      <p role="status">
        {turning &&
          `Not taken yet: the firing point still has ${bearingText(bearing)}, and its zone is off the map, as it is not of what is written here. Give a bearing, then press Enter or leave the field: until then nobody fires.`}
      </p>
    </div>
  );
}
