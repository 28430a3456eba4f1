"use client";
/** A corner by its coordinates, or by bearing and distance from a known point, as a tape and a compass give it. */
import { useState } from "react";
import { groundDirect, normalBearing } from "@/lib/earth";
import { Button } from "../../button";
import { FieldError, SelectField } from "../../field";
import { readPosition } from "../../position";
import { PositionField } from "../../position-field";
import { type Quantity, QuantityField, quantityProblem } from "../../quantity-field";
import { useUnits } from "../../units";
import { bearingText } from "../../words";
import { type Corner, cornersOf, type DrawAction, type Drawing } from "./model";

export interface KnownPoint {
  id: string;
  /** "Control point Oak". */
  name: string;
  at: Corner;
}

const nothing: Quantity = { text: "", value: null };

export function AddByNumbers({
  drawing,
  dispatch,
  known,
  declination,
  height,
}: {
  drawing: Drawing;
  dispatch: (action: DrawAction) => void;
  known: readonly KnownPoint[];
  /** Degrees, east positive. */
  declination: number;
  /** Of the ground, m: distances are measured there. */
  height: number;
}) {
  const system = useUnits();
  const [from, setFrom] = useState("coordinates");
  const [north, setNorth] = useState("true");
  const [where, setWhere] = useState("end");
  const [text, setText] = useState("");
  const [bearing, setBearing] = useState(nothing);
  const [distance, setDistance] = useState(nothing);
  const [wrong, setWrong] = useState<string | null>(null);
  const corners = cornersOf(drawing);
  const noun = drawing.now.shape === "area" ? "corner" : "point";
  const target = where === "end" || !corners[Number(where)] ? null : Number(where);
  const previous = drawing.now.shape === "point" ? undefined : corners.at(target === null ? -1 : target - 1);

  /** The place, or a sentence that says what is missing. */
  const place = (): Corner | string => {
    if (from === "coordinates") {
      const read = readPosition(text);
      return read.ok ? read.position : read.message;
    }
    const start = from === "previous" ? previous : known.find(({ id }) => id === from)?.at;
    if (!start) return `From: there is no previous ${noun} yet. Choose another point to start from.`;
    const problem =
      quantityProblem("Bearing", bearing, "angle", system) ??
      quantityProblem("Distance", distance, "distance", system);
    if (problem || bearing.value === null || distance.value === null) return problem ?? "";
    const true_ = bearing.value + (north === "magnetic" ? declination : 0);
    return groundDirect(start, normalBearing(true_), distance.value, height);
  };

  const add = () => {
    const at = place();
    if (typeof at === "string") {
      setWrong(at);
      return;
    }
    setWrong(null);
    dispatch(target === null ? { do: "add", at } : { do: "place", index: target, at });
    setText("");
    setDistance(nothing);
    setBearing(nothing);
  };

  return (
    <fieldset>
      <legend>Add a {noun} by numbers</legend>
      <SelectField
        id="add-from"
        label="From"
        value={from}
        onChange={(event) => setFrom(event.target.value)}
        choices={[
          { value: "coordinates", label: "Its coordinates" },
          ...(drawing.now.shape === "point"
            ? []
            : [{ value: "previous", label: `The previous ${noun}, by bearing and distance` }]),
          ...known.map(({ id, name }) => ({ value: id, label: `${name}, by bearing and distance` })),
        ]}
      />
      {from === "coordinates" ? (
        <PositionField id="add-position" text={text} onChange={setText} />
      ) : (
        <>
          <QuantityField
            id="add-bearing"
            label="Bearing"
            fieldName="Bearing"
            dimension="angle"
            quantity={bearing}
            onChange={setBearing}
          />
          {declination !== 0 && (
            <SelectField
              id="add-north"
              label="Bearing counts from"
              value={north}
              onChange={(event) => setNorth(event.target.value)}
              choices={[
                { value: "true", label: "True north" },
                {
                  value: "magnetic",
                  label: `Magnetic north (declination ${bearingText(Math.abs(declination))} ${declination > 0 ? "east" : "west"})`,
                },
              ]}
            />
          )}
          <QuantityField
            id="add-distance"
            label="Distance on the ground"
            fieldName="Distance"
            dimension="distance"
            quantity={distance}
            onChange={setDistance}
          />
        </>
      )}
      {drawing.now.shape !== "point" && corners.length > 0 && (
        <SelectField
          id="add-where"
          label="It becomes"
          value={target === null ? "end" : where}
          onChange={(event) => setWhere(event.target.value)}
          choices={[
            { value: "end", label: `A new ${noun} at the end` },
            ...corners.map((_, index) => ({ value: String(index), label: `${noun} ${index + 1}, moved` })),
          ]}
        />
      )}
      <FieldError id="add-by-numbers" error={wrong} />
      <Button onClick={add}>
        {drawing.now.shape === "point"
          ? "Place it there"
          : target === null
            ? `Add the ${noun}`
            : `Move ${noun} ${target + 1}`}
      </Button>
    </fieldset>
  );
}
