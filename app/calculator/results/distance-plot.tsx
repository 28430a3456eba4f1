"use client";
/** Distance against release instant: every instant at which the projectile may come free, each branch by its dash. */
import { useEffect, useMemo, useState } from "react";
import { distanceText, instantText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { CurvePoint, Preview } from "@/lib/throw";
import { fromSI, unitLabel, unitOf } from "@/lib/units";
import { useWidth } from "../use-width";

const DASHES = ["", "7 4", "2 4", "10 3 2 3", "14 5", "4 2 1 2"] as const;
const dashOf = (branch: number) => DASHES[branch % DASHES.length] as string;

interface Extreme {
  letter: "M" | "F" | "B";
  label: string;
  time: number;
  distance: number;
}

function extremes({ nominal, worst }: Preview): Extreme[] {
  const found: Extreme[] = [];
  if (nominal) {
    found.push({ letter: "M", label: "as meant", time: nominal.releaseTime, distance: nominal.distance });
  }
  if (worst.forward.releaseTime !== null) {
    const { releaseTime: time, distance } = worst.forward;
    found.push({ letter: "F", label: "worst forwards", time, distance });
  }
  if (worst.backward.releaseTime !== null) {
    const { releaseTime: time, distance } = worst.backward;
    found.push({ letter: "B", label: "worst backwards", time, distance: -distance });
  }
  return found;
}

export function DistancePlot({ preview, system }: { preview: Preview; system: UnitSystem }) {
  const [box, width] = useWidth<HTMLDivElement>(640);
  const [failed, setFailed] = useState(false);
  const marked = useMemo(() => extremes(preview), [preview]);
  const hangUp = hangUpStart(preview);

  useEffect(() => {
    let dropped = false;
    import("@observablehq/plot")
      .then((Plot) => {
        const target = box.current;
        if (dropped || !target) return;
        const unit = unitOf("distance", system === "us" ? "ft" : "m");
        const y = (point: { distance: number }) => fromSI(point.distance, unit);
        const name = unitLabel("distance", system);
        const plot = Plot.plot({
          width,
          height: Math.round(Math.min(420, Math.max(280, width * 0.55))),
          marginLeft: 58,
          marginBottom: 44,
          style: { fontSize: "14px", background: "none", color: "inherit", fontFamily: "inherit" },
          ariaLabel: "Distance of the first impact against the instant of release. The table says the same.",
          x: { label: "released after the trigger, s →", nice: true },
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
                preview.curve.filter((point) => point.branch === branch),
                { x: "time", y, strokeWidth: 2, strokeDasharray: dashOf(branch) },
              ),
            ),
            Plot.dot(marked, { x: "time", y, r: 5, fill: "#7a3a0f" }),
            // Letters beside their points: as meant to the left, the worst ones to the right.
            ...([-16, 16] as const).map((dx) =>
              Plot.text(
                marked.filter((each) => (each.letter === "M") === dx < 0),
                {
                  x: "time",
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
        plot.setAttribute("role", "img");
        // One picture with one name: its parts must not name themselves.
        for (const part of plot.querySelectorAll("[aria-label]")) part.removeAttribute("aria-label");
        target.replaceChildren(plot);
      })
      .catch(() => setFailed(true));
    return () => {
      dropped = true;
    };
  }, [box, width, preview, marked, hangUp, system]);

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
        Where the projectile first lands if it comes free at each instant. M as meant, F the worst forwards, B
        the worst backwards{hangUp === null ? "" : "; from the dotted line on the loop has failed to slip"}.
      </figcaption>
      <CurveTable preview={preview} marked={marked} system={system} />
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
  system,
}: {
  preview: Preview;
  marked: readonly Extreme[];
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
    (a, b) => a.time - b.time,
  );
  return (
    <details>
      <summary>Distance against instant, in figures</summary>
      <Table
        caption="First impact by release instant"
        rows={all}
        rowKey={(row, index) => `${row.time} ${index}`}
        columns={[
          { key: "time", head: "Released after", rowHead: true, cell: (row) => instantText(row.time) },
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
