/**
 * How a kind is drawn: where the parts of the cocked machine are, and what each parameter measures on them. Pure
 * geometry in the throw's own frame: x downrange, y up, metres, origin on the ground at the firing point.
 */

export type Point = readonly [number, number];

export type Part =
  /** What turns or bends: an arm, a limb. */
  | { type: "beam"; points: readonly Point[] }
  /** What only pulls: a sling, a hanger, a bowstring. */
  | { type: "rope"; points: readonly Point[] }
  | { type: "frame"; points: readonly Point[] }
  | { type: "track"; points: readonly Point[] }
  /** The surface a projectile slides on. */
  | { type: "trough"; points: readonly Point[] }
  /** Not there: a reference line, a place the part reaches later. */
  | { type: "ghost"; points: readonly Point[] }
  /** A way or a speed, with its head at the last point. */
  | { type: "arrow"; points: readonly Point[] }
  /** A closed outline: a vessel, a barrel, a box. */
  | { type: "box"; points: readonly Point[] }
  | { type: "weight"; centre: Point; radius: number }
  /** A wheel, a bundle of cord, a drum. */
  | { type: "circle"; centre: Point; radius: number }
  /** Part of a circle; degrees, anticlockwise from downrange. */
  | { type: "arc"; centre: Point; radius: number; from: number; to: number }
  /** A pin or an axle: of one size on every picture. */
  | { type: "joint"; centre: Point }
  /** The projectile, as large as it is declared. */
  | { type: "projectile"; centre: Point };

/** A dimension line beside from–to, on its left for a positive offset; the number stands at the share `at`, 0 to 1. */
interface Span {
  type: "span";
  from: Point;
  to: Point;
  offset: number;
  at?: number;
}

/** A number tied to one point. */
interface Spot {
  type: "spot";
  at: Point;
  dx: number;
  dy: number;
}

/** Degrees, anticlockwise from downrange. */
interface Angle {
  type: "angle";
  vertex: Point;
  radius: number;
  from: number;
  to: number;
}

/** The sling at release, drawn in a corner of its own: not to scale but at the true angle, degrees. */
interface Release {
  type: "release";
  angle: number;
}

/**
 * How one parameter is pointed out. Offsets and radii are in pixels of a picture about 600 wide, y up: they keep
 * marks off the parts and mean nothing on the machine.
 */
export type Mark = { parameter: string } & (Span | Spot | Angle | Release);

export interface Drawing {
  parts: readonly Part[];
  /** One for each parameter that can be pointed at. */
  marks: readonly Mark[];
  /** What must fit in the picture. */
  extent: readonly Point[];
  /** What the reader should know of how it is drawn. */
  note: string;
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** The point at this distance from another, towards an angle in degrees. */
export const away = (from: Point, degrees: number, distance: number): Point => [
  from[0] + Math.cos(radians(degrees)) * distance,
  from[1] + Math.sin(radians(degrees)) * distance,
];

/** A share of the way from one point to another. */
export const between = (a: Point, b: Point, share: number): Point => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
];

/** The corners around a centre line, half the breadth to each side: a barrel, a vessel, a block. */
export function boxAlong(from: Point, to: Point, breadth: number): Point[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(-dy / length) * (breadth / 2), (dx / length) * (breadth / 2)];
  return [
    [from[0] + nx, from[1] + ny],
    [to[0] + nx, to[1] + ny],
    [to[0] - nx, to[1] - ny],
    [from[0] - nx, from[1] - ny],
  ];
}
