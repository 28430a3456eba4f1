"use client";
/** What becomes of heights that count from the sea level. */
import { useState } from "react";
import { CheckField } from "../field";
import { type Quantity, QuantityField } from "../quantity-field";
import type { SeaLevel } from "./choices";

export function SeaLevelField({ sea, onChange }: { sea: SeaLevel; onChange: (sea: SeaLevel) => void }) {
  const [offset, setOffset] = useState<Quantity>({ text: "", value: null });
  return (
    <fieldset>
      <legend>Heights from the sea level</legend>
      <CheckField
        id="import-heights"
        label="Keep the heights of this file"
        help="If not, firing points and control points get the site’s own height, and spot heights are held back."
        checked={sea.keep}
        onChange={(event) =>
          onChange(event.target.checked ? { keep: true, offset: offset.value } : { keep: false })
        }
      />
      {sea.keep && (
        <QuantityField
          id="import-sea-level"
          label="The sea level’s height above the ellipsoid here"
          fieldName="Sea level"
          help="Between about −107 and 86 m over the world; the national survey or the receiver tells it (geoid height). It is added to every height of the file."
          dimension="distance"
          quantity={offset}
          onChange={(next) => {
            setOffset(next);
            onChange({ keep: true, offset: next.value });
          }}
        />
      )}
    </fieldset>
  );
}
