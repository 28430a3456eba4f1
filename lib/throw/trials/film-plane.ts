/**
 * From picture elements to metres in the plane of the throw. A camera that looks at the plane askew sees it through a
 * homography (R. Hartley, A. Zisserman, Multiple View Geometry in Computer Vision, 2nd ed. 2004, 8.1): each picture element
 * is a ray, turned by how the camera stands and met with the plane; known lengths then give the scale.
 */

/** Picture elements to the right and down. */
export type Pixel = readonly [number, number];

/** A known length in the plane of the throw, m, with its standard uncertainty. */
export interface KnownLength {
  from: Pixel;
  to: Pixel;
  length: number;
  uncertainty: number;
}

/** How well a length gives the scale, standard, as a share: as it was measured, and as both ends were tapped. */
export const shareOf = (known: KnownLength, tap: number) =>
  Math.hypot(known.uncertainty / known.length, (Math.SQRT2 * tap) / pixelsOf(known));

export interface Camera {
  /** Of the picture, picture elements. */
  width: number;
  height: number;
  /** m from the plane of the throw; null takes the nearest, from which a phone without zoom sees as much. */
  distance: number | null;
  /** How far its axis may be off the square to the plane, to a side as well as up or down, ± degrees. */
  square: number;
  /** How far it may lean, ± degrees; a plumb line in the picture takes its place. */
  level: number;
  /** How far before or behind the plane a known length may lie, ± m. */
  depth: number;
  /** s that reading a frame takes at most, row after row. */
  readout: number;
}

export interface Look {
  /** rad, to the side and up. */
  yaw: number;
  pitch: number;
  turn: number;
  scale: number;
}

/** Focal length of a phone's main camera by the longer side of its picture: common practice, no source. */
const WIDE = 0.7;

export interface Plane {
  /** m ahead and up, from the first end of the first known length. */
  at(pixel: Pixel): { x: number; y: number };
  /** m for a picture element. */
  perPixel: number;
  /** m from the camera. */
  distance: number;
  /** Each known length's own scale as a share of the one that is used. */
  shares: readonly number[];
}

export function planeOf(
  { width, height, distance }: Camera,
  lengths: readonly KnownLength[],
  tap: number,
  plumb: readonly [Pixel, Pixel] | null,
  towards: "right" | "left",
  { yaw, pitch, turn, scale }: Look,
): Plane {
  const first = lengths[0] as KnownLength;
  const focal =
    distance === null ? WIDE * Math.max(width, height) : (distance * pixelsOf(first)) / first.length;
  const [cy, sy, cp, sp] = [Math.cos(yaw), Math.sin(yaw), Math.cos(pitch), Math.sin(pitch)];
  const raw = ([px, py]: Pixel) => {
    const [u, v] = [px - width / 2, height / 2 - py];
    const [up, far] = [cp * v + sp * focal, cp * focal - sp * v];
    const depth = cy * far - sy * u;
    return [(cy * u + sy * far) / depth, up / depth] as const;
  };
  const between = (a: Pixel, b: Pixel) => {
    const [one, other] = [raw(a), raw(b)];
    return [other[0] - one[0], other[1] - one[1]] as const;
  };
  const scales = lengths.map(({ from, to, length }) => length / Math.hypot(...between(from, to)));
  const weights = lengths.map((each) => 1 / Math.max(1e-6, shareOf(each, tap)) ** 2);
  const mean =
    scales.reduce((sum, one, i) => sum + one * (weights[i] as number), 0) /
    weights.reduce((sum, weight) => sum + weight, 0);
  const metres = scale * mean;
  const hung = plumb ? hangs(between(...plumb)) + turn : turn;
  const [c, s] = [Math.cos(hung), Math.sin(hung)];
  const side = towards === "right" ? 1 : -1;
  const [ox, oy] = raw(first.from);
  return {
    at: (pixel) => {
      const [x, y] = raw(pixel);
      return { x: side * metres * (c * (x - ox) - s * (y - oy)), y: metres * (s * (x - ox) + c * (y - oy)) };
    },
    perPixel: metres / focal,
    distance: metres,
    shares: scales.map((each) => each / mean),
  };
}

export const pixelsOf = ({ from, to }: Pick<KnownLength, "from" | "to">) =>
  Math.hypot(to[0] - from[0], to[1] - from[1]);

/** By how much to turn the picture for this line to hang straight; it may have been tapped from either end. */
function hangs([x, y]: readonly [number, number]): number {
  return Math.atan2(y < 0 ? -x : x, Math.abs(y));
}
