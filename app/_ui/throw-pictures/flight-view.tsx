"use client";
/** The throws as meant and at their worst over the whole field, from the side, to scale. */
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { HazardRequest, Preview } from "@/lib/throw";
import { Ground, ScaleBar } from "../machine-form/drawing/machine-picture";
import { useWidth } from "./use-width";

const looks = {
  nominal: { letter: "M", className: "flight flight-meant", label: "as meant" },
  forward: { letter: "F", className: "flight flight-forward", label: "worst forwards" },
  backward: { letter: "B", className: "flight flight-backward", label: "worst backwards" },
} as const;

const MARGIN = 26;
const ABOVE = 18;
const BELOW = 62;
/** High throws are drawn narrower rather than taller than this, px. */
const TALLEST = 360;

export function FlightView({
  preview,
  terrain,
  system,
}: {
  preview: Preview;
  terrain: HazardRequest["terrain"];
  system: UnitSystem;
}) {
  const [box, width] = useWidth<HTMLDivElement>(900);
  const { flights } = preview;
  if (flights.length === 0) return null;
  let [left, right, top, bottom] = [0, 1, 1, 0];
  for (const { path } of flights) {
    for (let index = 0; index < path.length; index += 2) {
      left = Math.min(left, path[index] as number);
      right = Math.max(right, path[index] as number);
      top = Math.max(top, path[index + 1] as number);
      bottom = Math.min(bottom, path[index + 1] as number);
    }
  }
  const scale = Math.min((width - 2 * MARGIN) / (right - left), TALLEST / (top - bottom));
  const start = (width - (right - left) * scale) / 2;
  const level = ABOVE + top * scale;
  const lowest = level - bottom * scale;
  const height = lowest + BELOW;
  const x = (metres: number) => start + (metres - left) * scale;
  const y = (metres: number) => level - metres * scale;
  /** The ground a throw lands on. */
  const land = (metres: number) =>
    y(-(terrain?.below ?? 0) - metres * Math.tan(((terrain?.slope ?? 0) * Math.PI) / 180));
  const sloped = terrain !== undefined && (terrain.below !== 0 || terrain.slope !== 0);
  const line = (path: readonly number[]) => {
    const points = [];
    for (let index = 0; index < path.length; index += 2) {
      points.push(`${x(path[index] as number).toFixed(1)},${y(path[index + 1] as number).toFixed(1)}`);
    }
    return points.join(" ");
  };
  const landings = flights
    .map(({ of, path }) => ({ ...looks[of], metres: path.at(-2) ?? 0 }))
    .sort((a, b) => a.metres - b.metres);
  return (
    <figure className="swing">
      <div ref={box}>
        <svg
          className="machine-picture"
          viewBox={`0 0 ${width} ${height}`}
          width={width}
          height={height}
          role="img"
          aria-label={`The flights from the side, downrange to the right: ${landings.map((each) => `${each.label} ${distanceText(Math.abs(each.metres), system)}`).join(", ")}.`}
        >
          {sloped ? (
            <g className="ground">
              <path d={`M${x(left)} ${land(left)}L${x(right)} ${land(right)}`} strokeWidth="2" />
              <path d={`M${x(0) - 14} ${level}h28`} strokeWidth="2" />
            </g>
          ) : (
            <Ground width={width} y={level} />
          )}
          {flights.map(({ of, path }) => (
            <polyline key={of} className={looks[of].className} points={line(path)} />
          ))}
          <path className="pivot-mark" d={`M${x(0)} ${level}v-14m-5 7h10`} />
          {landings.map((each, index) => (
            <Landing
              key={each.letter}
              {...each}
              x={x(each.metres)}
              ground={land(each.metres)}
              drop={index % 2}
            />
          ))}
          <ScaleBar projection={{ scale, width }} system={system} y={height - 6} />
        </svg>
      </div>
      <figcaption>
        The flights from the side, to scale, to the first impact; the cross is the firing point. M as meant
        (full line), F worst forwards (dashed), B worst backwards (dotted). Bounce and roll come after.
      </figcaption>
    </figure>
  );
}

function Landing({ letter, x, ground, drop }: { letter: string; x: number; ground: number; drop: number }) {
  const y = ground + 22 + drop * 4;
  return (
    <g className="release-mark">
      <path d={`M${x} ${ground}V${y - 10}`} />
      <circle cx={x} cy={y} r={10} />
      <text x={x} y={y} dy="0.36em">
        {letter}
      </text>
    </g>
  );
}
