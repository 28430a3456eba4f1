/**
 * The cocked machine to scale, from its kind's own drawing, with a letter and the number at each parameter. A picture
 * of the form, not a field itself.
 */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Drawing, Part, Point } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import { arcPath, type PlacedMark, type Projection, releaseCorner } from "./projection";

const at = ([x, y]: Point) => `${x.toFixed(1)},${y.toFixed(1)}`;

export function MachinePicture({
  drawing,
  projection,
  placed,
  letters,
  numbers,
  active,
  diameter,
  system,
  title,
}: {
  drawing: Drawing;
  projection: Projection;
  placed: readonly PlacedMark[];
  letters: Readonly<Record<string, string>>;
  /** What stands beside the letters, with its unit. */
  numbers: Readonly<Record<string, string>>;
  /** The parameter whose field has the focus. */
  active: string | null;
  /** Of the projectile, m. */
  diameter: number;
  system: UnitSystem;
  title: string;
}) {
  const { width, height, toPixels } = projection;
  const ground = toPixels([0, 0])[1];
  // What is entered now lies on top.
  const ordered = [...placed].sort(
    (a, b) => Number(a.mark.parameter === active) - Number(b.mark.parameter === active),
  );
  return (
    <svg
      className="machine-picture"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={`${title}, ready to throw, drawn to scale. Each letter stands at what its field measures.`}
    >
      <Ground width={width} y={ground} />
      {drawing.parts.map((part, index) => (
        // Parts have no identity but their order.
        <PartOf key={index} part={part} projection={projection} diameter={diameter} />
      ))}
      {ordered.map((each) => (
        <MarkOf
          key={each.mark.parameter}
          placed={each}
          letter={letters[each.mark.parameter] ?? ""}
          number={numbers[each.mark.parameter] ?? ""}
          active={each.mark.parameter === active}
          projection={projection}
        />
      ))}
      <ScaleBar projection={projection} system={system} y={height - 12} />
    </svg>
  );
}

export function Ground({ width, y }: { width: number; y: number }) {
  const strokes = [];
  for (let x = 6; x < width; x += 14) strokes.push(`M${x} ${y + 2}l-6 7`);
  return (
    <g className="ground">
      <path d={`M0 ${y}H${width}`} strokeWidth="2" />
      <path d={strokes.join("")} strokeWidth="1" />
    </g>
  );
}

/** No disc of the machine is drawn smaller than this, px. */
const LEAST = 4;

function PartOf({ part, projection, diameter }: { part: Part; projection: Projection; diameter: number }) {
  const { toPixels, scale } = projection;
  const look = `part part-${part.type}`;
  switch (part.type) {
    case "arrow":
      return <Arrow points={part.points.map(toPixels)} />;
    case "box":
      return <polygon className={look} points={part.points.map((p) => at(toPixels(p))).join(" ")} />;
    case "arc":
      return (
        <path className={look} d={arcPath(toPixels(part.centre), part.radius * scale, part.from, part.to)} />
      );
    case "joint":
    case "projectile":
    case "weight":
    case "circle": {
      const [x, y] = toPixels(part.centre);
      const metres = part.type === "joint" ? 0 : part.type === "projectile" ? diameter / 2 : part.radius;
      const radius = part.type === "joint" ? 5 : Math.max(LEAST, metres * scale);
      return <circle className={look} cx={x} cy={y} r={radius} />;
    }
    default:
      return <polyline className={look} points={part.points.map((p) => at(toPixels(p))).join(" ")} />;
  }
}

function Arrow({ points }: { points: readonly Point[] }) {
  const end = points.at(-1) as Point;
  const before = points.at(-2) as Point;
  const angle = Math.atan2(end[1] - before[1], end[0] - before[0]);
  const side = (turn: number): Point => [
    end[0] - 16 * Math.cos(angle + turn),
    end[1] - 16 * Math.sin(angle + turn),
  ];
  return (
    <g className="part part-arrow">
      <polyline points={points.map(at).join(" ")} />
      <polyline points={[side(0.5), end, side(-0.5)].map(at).join(" ")} />
    </g>
  );
}

/** Radius of a letter's disc, px. */
const LETTER = 11;

function MarkOf({
  placed,
  letter,
  number,
  active,
  projection,
}: {
  placed: PlacedMark;
  letter: string;
  number: string;
  active: boolean;
  projection: Projection;
}) {
  const { mark, target, line, side } = placed;
  const [x, y] = placed.letter;
  return (
    <g className={active ? "pointer pointer-active" : "pointer"}>
      {line ? <DimensionLine placed={placed} projection={projection} /> : null}
      {mark.type === "spot" ? (
        <>
          <path className="pointer-line" d={`M${at([x, y])}L${at(target)}`} />
          <circle className="pointer-dot" cx={target[0]} cy={target[1]} r={2.5} />
        </>
      ) : null}
      {mark.type === "angle" ? <AngleArc placed={placed} projection={projection} /> : null}
      {mark.type === "release" ? <ReleaseCorner angle={mark.angle} width={projection.width} /> : null}
      <circle className="pointer-disc" cx={x} cy={y} r={LETTER} />
      <text className="pointer-letter" x={x} y={y} dy="0.36em">
        {letter}
      </text>
      {number ? (
        <NumberBeside number={number} at={placed.letter} side={side} width={projection.width} />
      ) : null}
    </g>
  );
}

/** About the width of a digit, px. */
const DIGIT = 8;

/** Beside its letter; below it where the picture ends. */
function NumberBeside({
  number,
  at: [x, y],
  side,
  width,
}: {
  number: string;
  at: Point;
  side: -1 | 1;
  width: number;
}) {
  const room = number.length * DIGIT;
  const edge = x + side * (LETTER + 4 + room);
  const below = edge < 2 || edge > width - 2;
  const middle = Math.min(width - 4 - room / 2, Math.max(4 + room / 2, x));
  return (
    <text
      className="pointer-number"
      x={below ? middle : x + side * (LETTER + 4)}
      y={below ? y + LETTER + 11 : y}
      dy="0.36em"
      textAnchor={below ? "middle" : side < 0 ? "end" : "start"}
    >
      {number}
    </text>
  );
}

function DimensionLine({ placed, projection }: { placed: PlacedMark; projection: Projection }) {
  const { mark, line } = placed;
  if (mark.type !== "span" || !line) return null;
  const [from, to] = line;
  const [a, b] = [projection.toPixels(mark.from), projection.toPixels(mark.to)];
  return (
    <>
      <path className="pointer-thin" d={`M${at(a)}L${at(from)}M${at(b)}L${at(to)}`} />
      <path className="pointer-line" d={`M${at(from)}L${at(to)}`} />
      <circle className="pointer-dot" cx={from[0]} cy={from[1]} r={2.5} />
      <circle className="pointer-dot" cx={to[0]} cy={to[1]} r={2.5} />
    </>
  );
}

function AngleArc({ placed, projection }: { placed: PlacedMark; projection: Projection }) {
  const { mark } = placed;
  if (mark.type !== "angle") return null;
  const vertex = projection.toPixels(mark.vertex);
  const radius = mark.radius * (projection.width < 480 ? 0.7 : 1);
  const from = (mark.from * Math.PI) / 180;
  const level: Point = [
    vertex[0] + Math.cos(from) * (radius + 26),
    vertex[1] - Math.sin(from) * (radius + 26),
  ];
  return (
    <>
      <path className="pointer-thin" d={`M${at(vertex)}L${at(level)}`} />
      <path className="pointer-line" d={arcPath(vertex, radius, mark.from, mark.to)} />
    </>
  );
}

/** Arm upright, its outward line dashed, the sling at the release angle: true in angle, not in length. */
function ReleaseCorner({ angle, width }: { angle: number; width: number }) {
  const { tip, arm, sling } = releaseCorner(width);
  const direction = ((90 + angle) * Math.PI) / 180;
  const end: Point = [tip[0] + Math.cos(direction) * sling, tip[1] - Math.sin(direction) * sling];
  return (
    <>
      <path className="part part-beam" d={`M${tip[0]} ${tip[1] + arm}V${tip[1]}`} />
      <path className="pointer-thin" d={`M${tip[0]} ${tip[1]}V${tip[1] - sling}`} />
      <path className="part part-rope" d={`M${at(tip)}L${at(end)}`} />
      <path className="pointer-line" d={arcPath(tip, sling * 0.6, 90, 90 + angle)} />
      <circle className="part part-projectile" cx={end[0]} cy={end[1]} r={5} />
      <text className="drawing-note" x={tip[0] + 10} y={tip[1] + arm * 0.75}>
        at release
      </text>
    </>
  );
}

/** A length of 1, 2 or 5 times a power of ten in the reader's unit, about a fifth of the picture wide. */
export function ScaleBar({
  projection,
  system,
  y,
}: {
  projection: Pick<Projection, "scale" | "width">;
  system: UnitSystem;
  y: number;
}) {
  const unit = system === "us" ? 0.3048 : 1;
  const wanted = (projection.width * 0.2) / projection.scale / unit;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const length = ([5, 2, 1].find((step) => step * power <= wanted) ?? 1) * power;
  const pixels = length * unit * projection.scale;
  return (
    <g className="scale-bar">
      <path d={`M10 ${y - 5}v5h${pixels.toFixed(1)}v-5`} />
      <text x={16 + pixels} y={y}>
        {formatQuantity(length * unit, "distance", system)}
      </text>
    </g>
  );
}
