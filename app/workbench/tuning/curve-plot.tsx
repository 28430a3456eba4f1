"use client";
/** The throw as meant against one number; M marks where it stands, R where the revision has it. The table says the same. */
import type * as Plots from "@observablehq/plot";
import { useCallback } from "react";
import { PLOT_STYLE, usePlot } from "@/app/_ui/throw-pictures/use-plot";
import type { tuning } from "@/lib/throw";
import { type Dimension, fromSI, type UnitSystem, unitLabel, unitOf } from "@/lib/units";

export function CurvePlot({
  points,
  knob,
  here,
  declared,
  system,
}: {
  points: readonly tuning.TuningPoint[];
  knob: tuning.Knob;
  here: number;
  /** Null where it stands as the revision has it. */
  declared: number | null;
  system: UnitSystem;
}) {
  const { label, dimension } = knob;

  const draw = useCallback(
    (Plot: typeof Plots, width: number) => {
      if (points.length === 0) return null;
      const metres = unitOf("distance", system === "us" ? "ft" : "m");
      const along = axisUnit(dimension, system);
      const x = ({ value }: { value: number }) => fromSI(value, along);
      const y = ({ distance }: tuning.TuningPoint) =>
        distance === null ? Number.NaN : fromSI(distance, metres);
      const marks = [
        { value: here, letter: "M" },
        ...(declared === null ? [] : [{ value: declared, letter: "R" }]),
      ];
      return Plot.plot({
        width,
        height: Math.round(Math.min(380, Math.max(260, width * 0.5))),
        marginLeft: 58,
        marginTop: 30,
        marginBottom: 44,
        style: PLOT_STYLE,
        ariaLabel: `Throw as meant against ${label.toLowerCase()}. The table says the same.`,
        x: { label: `${label.toLowerCase()}${along.symbol ? `, ${along.symbol}` : ""} →` },
        y: { label: `↑ lands at, ${unitLabel("distance", system)}`, grid: true, nice: true },
        marks: [
          Plot.ruleX(marks, { x, strokeWidth: 2, stroke: "#7a3a0f", strokeDasharray: "4 4" }),
          Plot.line(points, { x, y, strokeWidth: 2.5 }),
          // A throw between two of which nothing is thrown has no line.
          Plot.dot(points, { x, y, r: 1.5, fill: "currentColor" }),
          Plot.text(marks, {
            x,
            text: "letter",
            frameAnchor: "top",
            dy: -14,
            fontWeight: 700,
            fontSize: 16,
            fill: "#1b1813",
          }),
        ],
      });
    },
    [points, label, dimension, here, declared, system],
  );
  const { box, failed } = usePlot(draw);

  return (
    <figure className="swing">
      {failed ? <p>The plot could not be loaded; the table below says the same.</p> : null}
      <div ref={box} className="plot" />
      <figcaption>
        M where it stands now{declared === null ? "" : ", R where the revision has it"}. Where the line is
        broken nothing is thrown.
      </figcaption>
    </figure>
  );
}

/** Decimal feet along an axis: feet and inches are no scale. */
const axisUnit = (dimension: Dimension, system: UnitSystem) =>
  unitOf(dimension, dimension === "length" ? (system === "us" ? "ft" : "m") : unitLabel(dimension, system));
