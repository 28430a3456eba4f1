/** From the machine's metres to the picture's pixels, and where each parameter's letter stands. */
import type { Drawing, Mark, Point } from "@/lib/throw";

export interface Projection {
  width: number;
  height: number;
  /** Pixels a metre. */
  scale: number;
  toPixels: (point: Point) => Point;
}

/** Server and browser differ in the last bits of sines: no picture needs them. */
const rounded = ([x, y]: Point): Point => [Number(x.toFixed(2)), Number(y.toFixed(2))];

/** Fits the extent into the picture with a margin for letters; the ground is always in it. */
export function project(
  { extent }: Pick<Drawing, "extent">,
  width: number,
  height: number,
  margin: number,
): Projection {
  let [left, right, bottom, top] = [Infinity, -Infinity, 0, 0];
  for (const [x, y] of extent) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    bottom = Math.min(bottom, y);
    top = Math.max(top, y);
  }
  const scale = Math.min(
    (width - 2 * margin) / Math.max(0.1, right - left),
    (height - 2 * margin) / Math.max(0.1, top - bottom),
  );
  const shiftX = width / 2 - (scale * (left + right)) / 2;
  const shiftY = height - margin;
  return {
    width,
    height,
    scale,
    toPixels: ([x, y]) => rounded([shiftX + x * scale, shiftY - (y - bottom) * scale]),
  };
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** The corner that shows the sling at release: where its arm ends, in pixels. */
export const releaseCorner = (width: number): { tip: Point; arm: number; sling: number } =>
  width < 480 ? { tip: [58, 62], arm: 44, sling: 38 } : { tip: [92, 92], arm: 66, sling: 58 };

export interface PlacedMark {
  mark: Mark;
  letter: Point;
  /** Which way the number beside the letter goes, so that it does not lie on what is measured. */
  side: -1 | 1;
  /** What the letter is tied to: an end of its leader line. */
  target: Point;
  /** Ends of the dimension line of a span. */
  line?: readonly [Point, Point];
}

/** Unit normal to the left of a→b, in a picture whose y grows downwards. */
function normal(a: Point, b: Point): Point {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy) || 1;
  return [dy / length, -dx / length];
}

export function placeMark(mark: Mark, projection: Projection): PlacedMark {
  const place = placeExactly(mark, projection);
  const { letter, line } = place;
  const ends = line && ([rounded(line[0]), rounded(line[1])] as const);
  return { ...place, letter: rounded(letter), ...(ends ? { line: ends } : {}) };
}

function placeExactly(mark: Mark, projection: Projection): PlacedMark {
  const { toPixels } = projection;
  // Less room on a phone, so letters stand nearer.
  const near = projection.width < 480 ? 0.7 : 1;
  switch (mark.type) {
    case "span": {
      const [a, b] = [toPixels(mark.from), toPixels(mark.to)];
      const [nx, ny] = normal(a, b);
      const offset = mark.offset * near;
      const from: Point = [a[0] + nx * offset, a[1] + ny * offset];
      const to: Point = [b[0] + nx * offset, b[1] + ny * offset];
      const at = mark.at ?? 0.5;
      const letter: Point = [from[0] + (to[0] - from[0]) * at, from[1] + (to[1] - from[1]) * at];
      return { mark, letter, side: nx * offset >= -1 ? 1 : -1, target: letter, line: [from, to] };
    }
    case "spot": {
      const target = toPixels(mark.at);
      const letter: Point = [target[0] + mark.dx * near, target[1] - mark.dy * near];
      return { mark, letter, side: mark.dx < 0 ? -1 : 1, target };
    }
    case "angle": {
      const [x, y] = toPixels(mark.vertex);
      const middle = radians((mark.from + mark.to) / 2);
      const radius = mark.radius * near;
      const letter: Point = [x + Math.cos(middle) * (radius + 16), y - Math.sin(middle) * (radius + 16)];
      return { mark, letter, side: Math.cos(middle) < 0 ? -1 : 1, target: letter };
    }
    case "release": {
      const { tip, sling } = releaseCorner(projection.width);
      const middle = radians(90 + mark.angle / 2);
      const letter: Point = [
        tip[0] + Math.cos(middle) * (sling * 0.95),
        tip[1] - Math.sin(middle) * (sling * 0.95),
      ];
      return { mark, letter, side: mark.angle < 0 ? -1 : 1, target: letter };
    }
  }
}

/** An SVG arc from one mathematical angle (degrees) to another. */
export function arcPath([x, y]: Point, radius: number, from: number, to: number): string {
  const end = (angle: number) =>
    `${(x + radius * Math.cos(radians(angle))).toFixed(1)} ${(y - radius * Math.sin(radians(angle))).toFixed(1)}`;
  const large = Math.abs(to - from) > 180 ? 1 : 0;
  return `M${end(from)}A${radius} ${radius} 0 ${large} ${to > from ? 0 : 1} ${end(to)}`;
}
