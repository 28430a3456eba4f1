/** The cocked machine to scale, with a letter at each parameter. A picture of the form, not a field itself. */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { formatQuantity } from "@/lib/units";
import type { MachineDrawing, Point, Shape } from "./geometry";
import { arcPath, type PlacedPointer, type Projection, releaseCorner } from "./projection";

const at = ([x, y]: Point) => `${x.toFixed(1)},${y.toFixed(1)}`;

export function MachinePicture({
  drawing,
  projection,
  placed,
  letters,
  active,
  system,
  title,
}: {
  drawing: MachineDrawing;
  projection: Projection;
  placed: readonly PlacedPointer[];
  letters: Readonly<Record<string, string>>;
  /** The parameter whose field has the focus. */
  active: string | null;
  system: UnitSystem;
  title: string;
}) {
  const { width, height, toPixels } = projection;
  const ground = toPixels([0, 0])[1];
  return (
    <svg
      className="machine-picture"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={`${title}, cocked, drawn to scale. Each letter stands at what its field measures.`}
    >
      <Ground width={width} y={ground} />
      {drawing.shapes.map((shape, index) => (
        // Shapes have no identity but their order.
        <ShapeOf key={index} shape={shape} projection={projection} />
      ))}
      {placed.map((each) => (
        <PointerOf
          key={each.pointer.name}
          placed={each}
          letter={letters[each.pointer.name] ?? ""}
          active={each.pointer.name === active}
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

function ShapeOf({ shape, projection }: { shape: Shape; projection: Projection }) {
  const { toPixels, scale } = projection;
  if (shape.type === "line") {
    return (
      <polyline
        className={`part part-${shape.look}`}
        points={shape.points.map((p) => at(toPixels(p))).join(" ")}
      />
    );
  }
  const [x, y] = toPixels(shape.centre);
  if (shape.type === "joint") return <circle className="part part-joint" cx={x} cy={y} r={5} />;
  return <circle className={`part part-${shape.look}`} cx={x} cy={y} r={Math.max(4, shape.radius * scale)} />;
}

function PointerOf({
  placed,
  letter,
  active,
  projection,
}: {
  placed: PlacedPointer;
  letter: string;
  active: boolean;
  projection: Projection;
}) {
  const { pointer, target, line } = placed;
  const [x, y] = placed.letter;
  return (
    <g className={active ? "pointer pointer-active" : "pointer"}>
      {line ? <DimensionLine placed={placed} projection={projection} /> : null}
      {pointer.type === "spot" ? (
        <>
          <path className="pointer-line" d={`M${at([x, y])}L${at(target)}`} />
          <circle className="pointer-dot" cx={target[0]} cy={target[1]} r={2.5} />
        </>
      ) : null}
      {pointer.type === "angle" ? <AngleArc placed={placed} projection={projection} /> : null}
      {pointer.type === "release" ? <ReleaseCorner angle={pointer.angle} width={projection.width} /> : null}
      <circle className="pointer-disc" cx={x} cy={y} r={11} />
      <text className="pointer-letter" x={x} y={y} dy="0.36em">
        {letter}
      </text>
    </g>
  );
}

function DimensionLine({ placed, projection }: { placed: PlacedPointer; projection: Projection }) {
  const { pointer, line } = placed;
  if (pointer.type !== "span" || !line) return null;
  const [from, to] = line;
  const [a, b] = [projection.toPixels(pointer.from), projection.toPixels(pointer.to)];
  return (
    <>
      <path className="pointer-thin" d={`M${at(a)}L${at(from)}M${at(b)}L${at(to)}`} />
      <path className="pointer-line" d={`M${at(from)}L${at(to)}`} />
      <circle className="pointer-dot" cx={from[0]} cy={from[1]} r={2.5} />
      <circle className="pointer-dot" cx={to[0]} cy={to[1]} r={2.5} />
    </>
  );
}

function AngleArc({ placed, projection }: { placed: PlacedPointer; projection: Projection }) {
  const { pointer } = placed;
  if (pointer.type !== "angle") return null;
  const vertex = projection.toPixels(pointer.vertex);
  const radius = pointer.radius * (projection.width < 480 ? 0.7 : 1);
  const from = (pointer.from * Math.PI) / 180;
  const level: Point = [
    vertex[0] + Math.cos(from) * (radius + 26),
    vertex[1] - Math.sin(from) * (radius + 26),
  ];
  return (
    <>
      <path className="pointer-thin" d={`M${at(vertex)}L${at(level)}`} />
      <path className="pointer-line" d={arcPath(vertex, radius, pointer.from, pointer.to)} />
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
      <path className="part part-arm" d={`M${tip[0]} ${tip[1] + arm}V${tip[1]}`} />
      <path className="pointer-thin" d={`M${tip[0]} ${tip[1]}V${tip[1] - sling}`} />
      <path className="part part-sling" d={`M${at(tip)}L${at(end)}`} />
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
