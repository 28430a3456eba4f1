/** The reach by azimuth seen from above, the bearing up: inside the line nobody may be. */
import { type ReactNode, useId } from "react";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Table } from "../table";
import { keptDistanceText } from "./words";

const SIZE = 440;
const MIDDLE = SIZE / 2;
const RADIUS = 178;

/** Rings at 1, 2 or 5 times a power of ten, two to five of them. */
function ringStep(largest: number): number {
  const power = 10 ** Math.floor(Math.log10(largest / 2));
  return ([5, 2, 1].find((step) => largest / (step * power) >= 2) ?? 1) * power;
}

export function ReachDrawing({
  reach,
  exclusion,
  system,
  overlay,
}: {
  reach: readonly number[];
  exclusion: { forward: number; backward: number; side: number };
  system: UnitSystem;
  /** Drawn on top, given where an azimuth (degrees) and a distance (m) are on the picture. */
  overlay?: (place: (azimuth: number, metres: number) => readonly [number, number]) => ReactNode;
}) {
  const hatch = useId();
  const unit = system === "us" ? 0.3048 : 1;
  const largest = Math.max(1, ...reach);
  const scale = RADIUS / largest;
  const place = (azimuth: number, metres: number) => {
    const angle = (azimuth * Math.PI) / 180;
    return [MIDDLE + Math.sin(angle) * metres * scale, MIDDLE - Math.cos(angle) * metres * scale] as const;
  };
  const outline = reach.map((metres, azimuth) => place(azimuth, metres));
  // The picture ends where the zone does, with room for its words.
  const upper = Math.min(...outline.map(([, y]) => y)) - 34;
  const lower = Math.max(...outline.map(([, y]) => y)) + 34;
  const step = ringStep(largest / unit) * unit;
  const rings = Array.from({ length: Math.floor(largest / step + 1e-9) }, (_, index) => step * (index + 1));
  const top = place(0, exclusion.forward);
  const bottom = place(180, exclusion.backward);
  return (
    <svg
      className="reach-drawing"
      viewBox={`0 ${upper.toFixed(0)} ${SIZE} ${(lower - upper).toFixed(0)}`}
      role="img"
      aria-label={`Keep-out zone from above, downrange up: ${keptDistanceText(exclusion.forward, system)} ahead, ${keptDistanceText(exclusion.backward, system)} behind, ${keptDistanceText(exclusion.side, system)} to the side. The table of reach says the same.`}
    >
      <defs>
        <pattern id={hatch} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="9" height="9" fill="#fbe9e7" />
          <rect width="2" height="9" fill="#9b2423" />
        </pattern>
      </defs>
      <polygon
        points={outline.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ")}
        fill={`url(#${hatch})`}
        stroke="#9b2423"
        strokeWidth="3"
      />
      {rings.map((metres) => (
        <circle key={metres} className="reach-ring" cx={MIDDLE} cy={MIDDLE} r={metres * scale} />
      ))}
      {rings.map((metres) => {
        const [x, y] = place(50, metres);
        return (
          <text key={metres} className="reach-text" x={x} y={y}>
            {formatQuantity(metres, "distance", system, { digits: 0 })}
          </text>
        );
      })}
      <path className="reach-axis" d={`M${MIDDLE} ${bottom[1]}V${top[1] + 4}`} />
      <path d={`M${MIDDLE} ${top[1]}l-7 14h14z`} />
      <circle cx={MIDDLE} cy={MIDDLE} r="5" />
      <text className="reach-text reach-strong" x={MIDDLE} y={top[1] - 10}>
        ahead {keptDistanceText(exclusion.forward, system)}
      </text>
      <text className="reach-text reach-strong" x={MIDDLE} y={bottom[1] + 18}>
        behind {keptDistanceText(exclusion.backward, system)}
      </text>
      <text className="reach-text reach-strong" x={MIDDLE} y={MIDDLE + 24}>
        keep out
      </text>
      {overlay?.(place)}
    </svg>
  );
}

/** The same as figures: every fifteen degrees off the bearing, to the right and to the left. */
export function ReachTable({ reach, system }: { reach: readonly number[]; system: UnitSystem }) {
  const off = Array.from({ length: 13 }, (_, index) => index * 15);
  const at = (azimuth: number) => keptDistanceText(reach[azimuth % 360] ?? 0, system);
  return (
    <Table
      caption="Reach by azimuth, from the firing point"
      rows={off}
      rowKey={(degrees) => degrees}
      columns={[
        {
          key: "off",
          head: "Off the bearing",
          rowHead: true,
          cell: (degrees) => (degrees === 0 ? "0°, ahead" : degrees === 180 ? "180°, behind" : `${degrees}°`),
        },
        { key: "right", head: "To the right", number: true, cell: (degrees) => at(degrees) },
        { key: "left", head: "To the left", number: true, cell: (degrees) => at(360 - degrees) },
      ]}
    />
  );
}
