"use client";
/** The landing, the zone and the explanations' flights from above, the bearing up, to scale. */
import { useId } from "react";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { ScaleBar } from "@/app/_ui/machine-form/drawing/machine-picture";
import { useWidth } from "@/app/_ui/throw-pictures/use-width";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Replay } from "@/lib/throw";
import { directionText } from "./words";

const MARGIN = 34;
/** px */
const TALLEST = 560;
const BELOW = 30;

interface Spot {
  downrange: number;
  aside: number;
}

export function PlanView({
  replay,
  reach,
  dwarfed = false,
  system,
}: {
  replay: Replay;
  reach: readonly number[] | null;
  /** Drawn by itself too, with the names of the flights. */
  dwarfed?: boolean;
  system: UnitSystem;
}) {
  const [box, width] = useWidth<HTMLDivElement>(900);
  const hatch = useId();
  const { target, explanations } = replay;
  const flights = explanations.map((each, index) => ({
    name: String(index + 1),
    fits: each.fits,
    from: each.from,
    impact: each.impact,
    end: each.rest ?? each.impact,
  }));
  const zone: Spot[] = (reach ?? []).map((metres, degrees) => {
    const angle = (degrees * Math.PI) / 180;
    return { downrange: metres * Math.cos(angle), aside: metres * Math.sin(angle) };
  });
  const all: Spot[] = [
    { downrange: 0, aside: 0 },
    target,
    ...zone,
    ...flights.flatMap(({ from, end }) => [from, end]),
  ];
  const room = target.uncertainty;
  const [left, right] = [
    Math.min(...all.map((each) => each.aside)) - room,
    Math.max(...all.map((each) => each.aside)) + room,
  ];
  const [low, high] = [
    Math.min(...all.map((each) => each.downrange)) - room,
    Math.max(...all.map((each) => each.downrange)) + room,
  ];
  const scale = Math.min(
    (width - 2 * MARGIN) / Math.max(1, right - left),
    (TALLEST - 2 * MARGIN) / Math.max(1, high - low),
  );
  const height = (high - low) * scale + 2 * MARGIN + BELOW;
  const across = (width - (right - left) * scale) / 2;
  const x = ({ aside }: Spot) => across + (aside - left) * scale;
  const y = ({ downrange }: Spot) => MARGIN + (high - downrange) * scale;
  const point = (spot: Spot) => `${x(spot).toFixed(1)} ${y(spot).toFixed(1)}`;
  const origin = { downrange: 0, aside: 0 };
  // Words stay inside the picture.
  const inside = (at: number) => Math.max(48, Math.min(width - 48, at));
  const others = flights.filter(({ fits }) => !fits);
  const fitting = flights.length - others.length;
  const where = `${distanceText(target.distance, system)}, ${directionText(target.direction)}`;
  return (
    <figure className="replay-plan">
      <div ref={box}>
        <svg
          viewBox={`0 0 ${width} ${height.toFixed(0)}`}
          width={width}
          height={height}
          role="img"
          aria-label={`From above, the bearing up: found ${where}. ${fitting} of ${flights.length} flights drawn end there. The table says the same.`}
        >
          <defs>
            <pattern
              id={hatch}
              width="9"
              height="9"
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(45)"
            >
              <rect width="9" height="9" fill="#fdf5f4" />
              <rect width="1.5" height="9" fill="#d9a9a6" />
            </pattern>
          </defs>
          {zone.length > 0 ? (
            <polygon
              points={zone.map((spot) => `${x(spot).toFixed(1)},${y(spot).toFixed(1)}`).join(" ")}
              fill={`url(#${hatch})`}
              stroke="#9b2423"
              strokeWidth="2"
            />
          ) : null}
          <path
            className="replay-bearing"
            d={`M${x(origin)} ${y({ downrange: low, aside: 0 })}V${y({ downrange: high, aside: 0 })}`}
          />
          {flights.map(({ name, fits, from, impact, end }) => (
            <g key={name} className={fits ? "replay-flight" : "replay-flight replay-off"}>
              <path d={`M${point(from)}L${point(impact)}`} />
              {end === impact ? null : <path className="replay-roll" d={`M${point(impact)}L${point(end)}`} />}
            </g>
          ))}
          <circle className="replay-room" cx={x(target)} cy={y(target)} r={Math.max(4, room * scale)} />
          <path className="replay-found" d={`M${x(target) - 8} ${y(target) - 8}l16 16m0 -16l-16 16`} />
          <circle cx={x(origin)} cy={y(origin)} r="5" />
          {(dwarfed ? [] : others).map(({ name, end }, index) => (
            <g key={name} className="replay-name">
              <circle cx={x(end)} cy={y(end) - (index % 2) * 24} r="11" />
              <text x={x(end)} y={y(end) - (index % 2) * 24} dy="0.36em">
                {name}
              </text>
            </g>
          ))}
          <text className="replay-text" x={inside(x(target))} y={y(target) - Math.max(12, room * scale) - 6}>
            found
          </text>
          <text className="replay-text" x={inside(x(origin))} y={y(origin) + 22}>
            firing point
          </text>
          <ScaleBar projection={{ scale, width }} system={system} y={height - 6} />
        </svg>
      </div>
      <figcaption>
        {dwarfed
          ? "The same in the keep-out zone of the official sheet, hatched."
          : `From above, to scale, the bearing up. The cross is where it was found, with its uncertainty around it. Flights that fit are full lines, the nearest others dashed with their number in the table; bounce and roll dotted.${zone.length > 0 ? " Hatched: the keep-out zone of the official sheet." : ""}`}
      </figcaption>
    </figure>
  );
}
