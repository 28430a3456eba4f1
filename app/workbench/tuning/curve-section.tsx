"use client";
import { useState } from "react";
import { SelectField } from "@/app/_ui/field";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import { type HazardRequest, tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import { CurvePlot } from "./curve-plot";
import { type Asker, useNewest } from "./use-answers";
import { knobText } from "./words";

/** Every so many points stand in the table. */
const ROW = 4;

/** How the throw as meant depends on one number, the others as the sliders stand. */
export function CurveSection({
  asker,
  knobs,
  request,
  trial,
  system,
}: {
  asker: Asker;
  knobs: readonly tuning.Knob[];
  request: HazardRequest;
  trial: HazardRequest;
  system: UnitSystem;
}) {
  const [chosen, setChosen] = useState<string | null>(null);
  const knob = knobs.find(({ name }) => name === chosen) ?? (knobs[0] as tuning.Knob);
  const { name, label, dimension, present } = knob;
  const here = tuning.knobValue(trial, name) ?? present;
  const low = Math.min(knob.low, here);
  const high = Math.max(knob.high, here);
  // The number along the axis decides nothing of the curve.
  const base = tuning.withValues(trial, { [name]: present });
  const { answer, question } = useNewest(asker, { ask: "curve", request: base, name, low, high });
  const points = question?.name === name ? (answer ?? []) : [];
  const farthest = points.reduce<tuning.TuningPoint | null>(
    (best, point) => ((point.distance ?? -Infinity) > (best?.distance ?? -Infinity) ? point : best),
    null,
  );
  const declared = tuning.knobValue(request, name) ?? present;
  const rows = points.filter((_, i) => i % ROW === 0);
  return (
    <section aria-labelledby="curve-title">
      <h2 id="curve-title">One number against the throw</h2>
      <SelectField
        id="curve-knob"
        label="Number"
        help="All others as the sliders stand."
        value={name}
        onChange={(event) => setChosen(event.target.value)}
        choices={knobs.map((each) => ({ value: each.name, label: each.label }))}
      />
      <CurvePlot
        points={points}
        knob={knob}
        here={here}
        declared={declared === here ? null : declared}
        system={system}
      />
      <p>
        {farthest?.distance
          ? `Within this range it throws farthest at ${knobText(farthest.value, dimension, system)}: ${distanceText(farthest.distance, system)}.`
          : points.length > 0
            ? "Nothing is thrown anywhere in this range."
            : ""}{" "}
        It stands at {knobText(here, dimension, system)}.
      </p>
      <details>
        <summary>The curve, in figures</summary>
        <Table
          caption={`Throw as meant by ${label.toLowerCase()}`}
          rows={rows}
          rowKey={({ value }) => value}
          columns={[
            {
              key: "value",
              head: label,
              rowHead: true,
              cell: ({ value }) => knobText(value, dimension, system),
            },
            {
              key: "distance",
              head: "Lands at",
              number: true,
              cell: ({ distance }) =>
                distance === null ? "nothing is thrown" : distanceText(distance, system),
            },
          ]}
        />
      </details>
    </section>
  );
}
