/**
 * Where a picture of the ground lies: pixels pinned to known coordinates, and the transform that fits them best by
 * least squares in the local plane. A similarity (turned, scaled, shifted) has 4 numbers and needs 2 pins; an affine
 * transform (also stretched and sheared, as a scan or a slanting photo is) has 6 and needs 3. The closed forms are
 * those of the linear normal equations about the centroids.
 */
import { type GeoPoint, inverse, type LocalPlane, localPlane, type PlanePoint } from "./geodesic";
import type { PictureModel } from "./picture-models";

/** A pixel, counted right and down from the picture's top left corner, and where on the ground it is. */
export interface PicturePin extends GeoPoint {
  x: number;
  y: number;
}

/** Right and down in pixels to east and north in m: east = a·x + c·y + e, north = b·x + d·y + f (the order of CSS). */
export type PictureMatrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export interface PictureFit {
  model: PictureModel;
  matrix: PictureMatrix;
  plane: LocalPlane;
  /** In the order of the pins, m: from the given coordinates to where the fit puts the pixel. */
  residuals: (PlanePoint & { distance: number })[];
  /** Root mean square of the residuals' distances, m. */
  rms: number;
  /** How many of the pins' numbers check the fit; 0 means that its residuals are 0 whatever the pins say. */
  checks: number;
  /** Size of a pixel on the ground, m: the root of its area. */
  pixel: number;
  /** What to know before trusting it, as sentences. */
  warnings: string[];
}

export type FitAnswer = { ok: true; fit: PictureFit } | { ok: false; problem: string };

const PARAMETERS: Record<PictureModel, number> = { similarity: 4, affine: 6 };

/** Pins whose spread across is less than this part of their spread along lie on a line. */
const ON_A_LINE = 0.02;
/** Nearer together than this, two pins are the same place, m. */
const SAME_PLACE = 0.01;
/** An affine fit must leave this part of a similarity's error, or less, before it is chosen by itself. */
const WORTH_BENDING = 0.6;

const no = (problem: string): FitAnswer => ({ ok: false, problem });

/**
 * Fits the pins. Without a model the better conditioned one is taken: an affine transform only from 4 pins on, spread
 * over the ground, where it halves (about) what a similarity leaves over. Refuses, in a sentence, too few pins, pins
 * on one spot or on a line, and a picture that would have to be mirrored.
 */
export function fitPicture(pins: readonly PicturePin[], model?: PictureModel): FitAnswer {
  if (pins.length < 2) return no("Pin at least two points of the picture to known coordinates.");
  const middle = middleOf(pins);
  const far = Math.max(...pins.map((pin) => inverse(middle, pin).distance));
  if (far > 50_000) return no("The pins lie many kilometres apart: check their coordinates.");
  const plane = localPlane(middle);
  const pixels = pins.map(({ x, y }): Pair => [x, -y]);
  const ground = pins.map((pin): Pair => {
    const { east, north } = plane.toPlane(pin);
    return [east, north];
  });
  const onPicture = spread(pixels);
  const onGround = spread(ground);
  if (onPicture.along < 1)
    return no("All pins are on one spot of the picture: pin places that lie far apart.");
  if (onGround.along < SAME_PLACE)
    return no("All pins have the same coordinates: pin places that lie far apart.");
  const lined = Math.min(onPicture.ratio, onGround.ratio) < ON_A_LINE;
  const unlike = Math.max(onPicture.ratio, onGround.ratio) >= 5 * ON_A_LINE;
  if (lined && unlike && pins.length > 2)
    return no(
      `The pins lie on a line ${onPicture.ratio < ON_A_LINE ? "in the picture" : "on the ground"} but not ${onPicture.ratio < ON_A_LINE ? "on the ground" : "in the picture"}: one of them is wrong.`,
    );
  if (model === "affine" && pins.length < 3)
    return no("A stretched fit needs three pins or more: add one, or fit without stretching.");
  if (model === "affine" && lined)
    return no(
      "The pins lie on a line, so nothing says how the picture stretches across it: add a pin well aside of it, or fit without stretching.",
    );
  if (!lined && turnsOver(pixels, ground))
    return no(
      "The pins fit only a mirrored picture: two of them may be swapped, or the photo was turned over when it was scanned.",
    );
  const similarity = assemble("similarity", pins, plane, fitSimilarity(pixels, ground), lined);
  if (model === "similarity" || pins.length < 3 || lined) return { ok: true, fit: similarity };
  const affine = assemble("affine", pins, plane, fitAffine(pixels, ground), lined);
  if (model === "affine") return { ok: true, fit: affine };
  const bends = pins.length > 3 && onGround.ratio > 0.2 && sigma(affine) < WORTH_BENDING * sigma(similarity);
  return { ok: true, fit: bends ? affine : similarity };
}

/** Where on the ground a pixel lies. */
export function pixelToPoint({ matrix, plane }: PictureFit, x: number, y: number): GeoPoint {
  const [a, b, c, d, e, f] = matrix;
  return plane.toPoint({ east: a * x + c * y + e, north: b * x + d * y + f });
}

type Pair = readonly [number, number];
type Centred = { mean: Pair; rest: Pair[] };

/** The middle of the pins; longitudes may lie on both sides of 180°. */
function middleOf(pins: readonly PicturePin[]): GeoPoint {
  const first = pins[0]?.longitude ?? 0;
  const mean = (of: (pin: PicturePin) => number) => pins.reduce((sum, pin) => sum + of(pin), 0) / pins.length;
  return {
    latitude: mean(({ latitude }) => latitude),
    longitude: mean(({ longitude }) => longitude - 360 * Math.round((longitude - first) / 360)),
  };
}

function centred(points: readonly Pair[]): Centred {
  const sum = points.reduce<[number, number]>(([x, y], [px, py]) => [x + px, y + py], [0, 0]);
  const mean: Pair = [sum[0] / points.length, sum[1] / points.length];
  return { mean, rest: points.map(([x, y]) => [x - mean[0], y - mean[1]]) };
}

/** Second moments of centred points. */
function moments(rest: readonly Pair[]): { xx: number; xy: number; yy: number } {
  let [xx, xy, yy] = [0, 0, 0];
  for (const [x, y] of rest) {
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  return { xx, xy, yy };
}

/** Standard deviation along the longest direction, and how that across compares with it. */
function spread(points: readonly Pair[]): { along: number; ratio: number } {
  const { xx, xy, yy } = moments(centred(points).rest);
  const half = Math.hypot((xx - yy) / 2, xy);
  const most = (xx + yy) / 2 + half;
  // Not (xx + yy) / 2 − half, which loses all its digits for points on a line.
  const least = most > 0 ? Math.max(0, xx * yy - xy * xy) / most : 0;
  return { along: Math.sqrt(most / points.length), ratio: most > 0 ? Math.sqrt(least / most) : 0 };
}

/** Whether a similarity with a flip fits better than one without. */
function turnsOver(pixels: readonly Pair[], ground: readonly Pair[]): boolean {
  const [u, v] = [centred(pixels).rest, centred(ground).rest];
  let [straight, across, flipped, aslant] = [0, 0, 0, 0];
  u.forEach(([x, y], index) => {
    const [east, north] = v[index] as Pair;
    straight += x * east + y * north;
    across += x * north - y * east;
    flipped += x * east - y * north;
    aslant += x * north + y * east;
  });
  return Math.hypot(flipped, aslant) > Math.hypot(straight, across);
}

/** Columns of the picture's right and up in the plane, and the shift. */
type Linear = { right: Pair; up: Pair; shift: Pair };

function shiftOf(from: Pair, to: Pair, right: Pair, up: Pair): Pair {
  return [to[0] - right[0] * from[0] - up[0] * from[1], to[1] - right[1] * from[0] - up[1] * from[1]];
}

function fitSimilarity(pixels: readonly Pair[], ground: readonly Pair[]): Linear {
  const [u, v] = [centred(pixels), centred(ground)];
  const { xx, yy } = moments(u.rest);
  let [scaled, turned] = [0, 0];
  u.rest.forEach(([x, y], index) => {
    const [east, north] = v.rest[index] as Pair;
    scaled += x * east + y * north;
    turned += x * north - y * east;
  });
  const [cos, sin] = [scaled / (xx + yy), turned / (xx + yy)];
  const right: Pair = [cos, sin];
  const up: Pair = [-sin, cos];
  return { right, up, shift: shiftOf(u.mean, v.mean, right, up) };
}

function fitAffine(pixels: readonly Pair[], ground: readonly Pair[]): Linear {
  const [u, v] = [centred(pixels), centred(ground)];
  const { xx, xy, yy } = moments(u.rest);
  const determinant = xx * yy - xy * xy;
  const solve = (axis: 0 | 1): Pair => {
    let [x1, y1] = [0, 0];
    u.rest.forEach(([x, y], index) => {
      const value = (v.rest[index] as Pair)[axis];
      x1 += x * value;
      y1 += y * value;
    });
    return [(x1 * yy - y1 * xy) / determinant, (y1 * xx - x1 * xy) / determinant];
  };
  const [east, north] = [solve(0), solve(1)];
  const right: Pair = [east[0], north[0]];
  const up: Pair = [east[1], north[1]];
  return { right, up, shift: shiftOf(u.mean, v.mean, right, up) };
}

function assemble(
  model: PictureModel,
  pins: readonly PicturePin[],
  plane: LocalPlane,
  { right, up, shift }: Linear,
  lined: boolean,
): PictureFit {
  const matrix: PictureMatrix = [right[0], right[1], -up[0], -up[1], shift[0], shift[1]];
  const [a, b, c, d, e, f] = matrix;
  const residuals = pins.map((pin) => {
    const { east, north } = plane.toPlane(pin);
    const off = { east: a * pin.x + c * pin.y + e - east, north: b * pin.x + d * pin.y + f - north };
    return { ...off, distance: Math.hypot(off.east, off.north) };
  });
  const squares = residuals.reduce((sum, { distance }) => sum + distance ** 2, 0);
  const checks = 2 * pins.length - PARAMETERS[model];
  return {
    model,
    matrix,
    plane,
    residuals,
    rms: Math.sqrt(squares / pins.length),
    checks,
    pixel: Math.sqrt(Math.abs(a * d - b * c)),
    warnings: [
      ...(checks === 0
        ? ["Nothing checks this fit: its residuals are 0 whatever the pins say. Add a pin."]
        : []),
      ...(lined && pins.length > 2
        ? [
            "The pins lie nearly on a line: off that line the picture may be wrong. Add a pin well aside of it.",
          ]
        : []),
    ],
  };
}

/** Estimated standard error of one coordinate, m. */
function sigma({ residuals, checks }: PictureFit): number {
  const squares = residuals.reduce((sum, { distance }) => sum + distance ** 2, 0);
  return Math.sqrt(squares / Math.max(1, checks));
}
