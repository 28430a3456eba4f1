"use client";
/** The throws as meant and at their worst over the whole field, from the side, to scale. */
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Preview, SwingPicture } from "@/lib/throw";
import { Ground, ScaleBar } from "../drawing/machine-picture";
import { useWidth } from "../use-width";

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

export function FlightView({ preview, system }: { preview: Preview; system: UnitSystem }) {
  const [box, width] = useWidth<HTMLDivElement>(900);
  const flights: SwingPicture["flights"] = preview.swing?.flights ?? [];
  if (flights.length === 0) return null;
  let [left, right, top] = [0, 1, 1];
  for (const { path } of flights) {
    for (let index = 0; index < path.length; index += 2) {
      left = Math.min(left, path[index] as number);
      right = Math.max(right, path[index] as number);
      top = Math.max(top, path[index + 1] as number);
    }
  }
  const scale = Math.min((width - 2 * MARGIN) / (right - left), TALLEST / top);
  const start = (width - (right - left) * scale) / 2;
  const ground = ABOVE + top * scale;
  const height = ground + BELOW;
  const x = (metres: number) => start + (metres - left) * scale;
  const y = (metres: number) => ground - metres * scale;
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
          <Ground width={width} y={ground} />
          {flights.map(({ of, path }) => (
            <polyline key={of} className={looks[of].className} points={line(path)} />
          ))}
          <path className="pivot-mark" d={`M${x(0)} ${ground}v-14m-5 7h10`} />
          {landings.map((each, index) => (
            <Landing key={each.letter} {...each} x={x(each.metres)} ground={ground} drop={index % 2} />
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
