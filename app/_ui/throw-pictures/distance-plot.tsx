"use client";
/** Distance against release instant: every instant at which the projectile may come free, each branch by its dash. */
import type * as Plots from "@observablehq/plot";
import { useCallback, useMemo } from "react";
import { angleText, distanceText, instantText, speedText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { CurvePoint, Preview, WorstThrow } from "@/lib/throw";
import { fromSI, unitLabel, unitOf } from "@/lib/units";
import { PLOT_STYLE, usePlot } from "./use-plot";

const DASHES = ["", "7 4", "2 4", "10 3 2 3", "14 5", "4 2 1 2"] as const;
const dashOf = (branch: number) => DASHES[branch % DASHES.length] as string;

/** What tells one release from another: its instant, or else its direction or its speed. */
type Along = "time" | "angle" | "speed";

function alongOf({ curve, swing }: Preview): Along {
  const varies = (by: Along) => curve.some((point) => Math.abs(point[by] - (curve[0]?.[by] ?? 0)) > 1e-6);
  if (swing) return "time";
  return (["time", "angle", "speed"] as const).find(varies) ?? "angle";
}

const alongWords: Record<Along, { axis: string; head: string; each: string }> = {
  time: { axis: "released after the trigger, s", head: "Released after", each: "at each instant" },
  angle: {
    axis: "leaves at this angle, degrees above downrange",
    head: "Leaves at",
    each: "at each angle",
  },
  speed: { axis: "leaves at this speed", head: "Leaves at", each: "at each speed" },
};

interface Extreme {
  letter: "M" | "F" | "B";
  label: string;
  time: number;
  angle: number;
  speed: number;
  distance: number;
}

/** Angles of the curve run from −180 to 180°, those of a throw too. */
function extremes({ nominal, worst }: Preview): Extreme[] {
  const found: Extreme[] = [];
  if (nominal) {
    found.push({ letter: "M", label: "as meant", ...released(nominal), distance: nominal.distance });
  }
  if (worst.forward.releaseTime !== null) {
    const { distance } = worst.forward;
    found.push({ letter: "F", label: "worst forwards", ...released(worst.forward), distance });
  }
  if (worst.backward.releaseTime !== null) {
    const { distance } = worst.backward;
    found.push({ letter: "B", label: "worst backwards", ...released(worst.backward), distance: -distance });
  }
  return found;
}

/** Along the axis: directions may pass straight uprange, where they jump from 180 to −180°. */
const inOrder = (curve: readonly CurvePoint[], along: Along) =>
  along === "time" ? curve : [...curve].sort((a, b) => a[along] - b[along]);

const released = (thrown: Pick<WorstThrow, "releaseTime" | "launchAngle" | "releaseSpeed">) => ({
  time: thrown.releaseTime ?? 0,
  angle: thrown.launchAngle ?? 0,
  speed: thrown.releaseSpeed ?? 0,
});

export function DistancePlot({ preview, system }: { preview: Preview; system: UnitSystem }) {
  const marked = useMemo(() => extremes(preview), [preview]);
  const along = alongOf(preview);
  const hangUp = along === "time" ? hangUpStart(preview) : null;

  const draw = useCallback(
    (Plot: typeof Plots, width: number) => {
      const unit = unitOf("distance", system === "us" ? "ft" : "m");
      const y = (point: { distance: number }) => fromSI(point.distance, unit);
      const name = unitLabel("distance", system);
      const speedUnit = unitOf("speed", unitLabel("speed", system));
      const x = (point: Pick<CurvePoint, Along>) =>
        along === "speed" ? fromSI(point.speed, speedUnit) : point[along];
      return Plot.plot({
        width,
        height: Math.round(Math.min(420, Math.max(280, width * 0.55))),
        marginLeft: 58,
        marginBottom: 44,
        style: PLOT_STYLE,
        ariaLabel: "Distance of the first impact by release. The table says the same.",
        x: {
          label: `${alongWords[along].axis}${along === "speed" ? `, ${speedUnit.symbol}` : ""} →`,
          nice: true,
        },
        y: { label: `↑ downrange, ${name}; below the line uprange`, grid: true, nice: true },
        marks: [
          ...(hangUp === null
            ? []
            : [
                Plot.ruleX([hangUp], { strokeDasharray: "1 3", strokeWidth: 2 }),
                Plot.text([hangUp], {
                  x: (time: number) => time,
                  text: () => "hang-up →",
                  frameAnchor: "top",
                  textAnchor: "start",
                  dx: 5,
                }),
              ]),
          Plot.ruleY([0], { strokeWidth: 1.5 }),
          ...preview.branches.map((_, branch) =>
            Plot.line(
              inOrder(preview.curve, along).filter((point) => point.branch === branch),
              { x, y, strokeWidth: 2, strokeDasharray: dashOf(branch) },
            ),
          ),
          Plot.dot(marked, { x, y, r: 5, fill: "#7a3a0f" }),
          // Letters beside their points: as meant to the left, the worst ones to the right.
          ...([-16, 16] as const).map((dx) =>
            Plot.text(
              marked.filter((each) => (each.letter === "M") === dx < 0),
              {
                x,
                y,
                dx,
                text: "letter",
                fontWeight: 700,
                fontSize: 16,
                stroke: "#fdfbf5",
                strokeWidth: 5,
                fill: "#1b1813",
              },
            ),
          ),
        ],
      });
    },
    [preview, marked, hangUp, along, system],
  );
  const { box, failed } = usePlot(draw);

  return (
    <figure className="swing">
      {failed ? <p>The plot could not be loaded; the table below says the same.</p> : null}
      <div ref={box} className="plot" />
      {preview.branches.length > 1 ? (
        <ul className="plot-key" aria-label="Lines of the plot">
          {preview.branches.map((branch, index) => (
            <li key={branch}>
              <svg width="56" height="10" aria-hidden="true">
                <path d="M0 5H56" strokeDasharray={dashOf(index)} />
              </svg>
              {branch}
            </li>
          ))}
        </ul>
      ) : null}
      <figcaption>
        Where the projectile first lands if it leaves {alongWords[along].each}. M as meant, F the worst
        forwards, B the worst backwards
        {hangUp === null ? "" : "; from the dotted line on the loop has failed to slip"}.
      </figcaption>
      <CurveTable preview={preview} marked={marked} along={along} system={system} />
    </figure>
  );
}

function hangUpStart(preview: Preview): number | null {
  let start: number | null = null;
  for (const point of preview.curve) {
    if (point.hangUp && (start === null || point.time < start)) start = point.time;
  }
  return start;
}

const ROWS = 16;

/** Evenly chosen instants of every branch, and the marked ones. */
function CurveTable({
  preview,
  marked,
  along,
  system,
}: {
  preview: Preview;
  marked: readonly Extreme[];
  along: Along;
  system: UnitSystem;
}) {
  const rows = preview.branches.flatMap((branch, index) => {
    const points = preview.curve.filter((point) => point.branch === index);
    const step = Math.max(1, Math.ceil(points.length / ROWS));
    return points
      .filter((_, at) => at % step === 0)
      .map((point: CurvePoint) => ({ ...point, what: point.hangUp ? `${branch}, hang-up` : branch }));
  });
  const all = [...rows, ...marked.map((each) => ({ ...each, what: `${each.label} (${each.letter})` }))].sort(
    (a, b) => a[along] - b[along],
  );
  return (
    <details>
      <summary>Distance by release, in figures</summary>
      <Table
        caption="First impact by release"
        rows={all}
        rowKey={(row, index) => `${row[along]} ${index}`}
        columns={[
          {
            key: "release",
            head: alongWords[along].head,
            rowHead: true,
            cell: (row) =>
              along === "time"
                ? instantText(row.time)
                : along === "angle"
                  ? angleText(row.angle)
                  : speedText(row.speed, system),
          },
          {
            key: "lands",
            head: "Lands",
            number: true,
            cell: (row) =>
              `${distanceText(Math.abs(row.distance), system)} ${row.distance < 0 ? "uprange" : "downrange"}`,
          },
          { key: "what", head: "Which", cell: (row) => row.what },
        ]}
      />
    </details>
  );
}
