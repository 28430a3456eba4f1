"use client";
/** Says that bearings in the form came from spotters, and fills them in anew when more have come. */
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { Values } from "./draft";
import type { JudgeShot, Range } from "./entry";
import { seenFrom, sightedValues } from "./from-sightings";

export function SpottersOffer({
  shot,
  range,
  values,
  onFill,
}: {
  shot: JudgeShot;
  range: Range;
  /** As they stand in the form. */
  values: Values | undefined;
  onFill: (values: Values) => void;
}) {
  const system = useUnits();
  const seen = seenFrom(shot, range);
  const sighted = sightedValues(shot, range, system);
  if (seen.length === 0) return null;
  const same = sighted !== null && JSON.stringify(values?.bearings) === JSON.stringify(sighted.bearings);
  const from = seen.map(
    ({ postName, bearing, north, by }) => `${postName} ${bearingText(bearing)} ${north} (${by})`,
  );
  return (
    <Notice title={same ? "Filled in from the spotters" : "The spotters have sent"} live>
      <p>{from.join(", ")}.</p>
      {same ? (
        <p>
          Look at them and change what is wrong. Go there and measure: keep this only if nothing is found.
        </p>
      ) : sighted ? (
        <Button onClick={() => onFill({ ...values, ...sighted })}>Fill in these bearings</Button>
      ) : (
        <p>One post alone makes no point.</p>
      )}
    </Notice>
  );
}
