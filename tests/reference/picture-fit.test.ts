/**
 * The least-squares fit of a picture against cases whose answer is known in closed form, worked out here by hand.
 * Source: none published; both follow from the normal equations alone.
 *
 * 1. Pins made by an exact transform: the fit must give that transform back.
 * 2. Pins on the corners of a rectangle about its centre, displaced by a pattern that is orthogonal to everything the
 *    model can express. Least squares then leaves the undisplaced transform, and the displacements are the residuals:
 *    - affine: displacement k·sign(x·y) on one axis is orthogonal to 1, x and y;
 *    - similarity: displacement k·(sign x, −sign y) on a square is orthogonal to the shift, to the scaling (x, y) and
 *      to the turning (−y, x).
 */
import { expect, test } from "vitest";
import { fitPicture, localPlane, type PictureFit, type PictureModel, type PicturePin } from "@/lib/earth";

const SITE = { latitude: 51.5, longitude: 7.25 };
const plane = localPlane(SITE);

type Transform = (x: number, y: number) => [east: number, north: number];

const pinsOf = (pixels: readonly (readonly [number, number])[], ground: Transform): PicturePin[] =>
  pixels.map(([x, y]) => {
    const [east, north] = ground(x, y);
    return { x, y, ...plane.toPoint({ east, north }) };
  });

function fit(pins: readonly PicturePin[], model: PictureModel): PictureFit {
  const answer = fitPicture(pins, model);
  if (!answer.ok) throw new Error(answer.problem);
  return answer.fit;
}

/** Balanced about its middle, so that the fit's own plane hangs on SITE too. */
const GRID = [-400, -100, 100, 400].flatMap((x) => [-300, 0, 300].map((y) => [x, y] as const));

test.each<[PictureModel, [number, number, number, number]]>([
  ["similarity", [0.11, -0.07, -0.07, -0.11]],
  ["similarity", [-0.2, 0.01, 0.01, 0.2]],
  ["affine", [0.11, -0.07, -0.02, -0.19]],
  ["affine", [0.3, 0.1, 0.2, -0.1]],
])("an exact %s transform %j is recovered to 1e-9", (model, [a, b, c, d]) => {
  const { matrix, residuals, rms } = fit(
    pinsOf(GRID, (x, y) => [a * x + c * y, b * x + d * y]),
    model,
  );
  // The plane hangs on the mean of the coordinates, some micrometres from the mean of the ground: e and f.
  for (const [index, value] of [a, b, c, d].entries())
    expect(Math.abs((matrix[index] as number) - value)).toBeLessThan(1e-9);
  for (const { distance } of residuals) expect(distance).toBeLessThan(1e-6);
  expect(rms).toBeLessThan(1e-6);
});

test("affine: what cannot be fitted stays as the residuals, and the root mean square is the displacement", () => {
  const k = 0.4;
  const corners = [-500, 500].flatMap((x) => [-350, 350].map((y) => [x, y] as const));
  const { matrix, residuals, rms } = fit(
    pinsOf(corners, (x, y) => [0.1 * x - 0.03 * y + k * Math.sign(x * y), 0.02 * x - 0.12 * y]),
    "affine",
  );
  for (const [index, value] of [0.1, 0.02, -0.03, -0.12].entries())
    expect(matrix[index]).toBeCloseTo(value, 7);
  residuals.forEach(({ east, north }, index) => {
    const [x, y] = corners[index] as readonly [number, number];
    expect(east).toBeCloseTo(-k * Math.sign(x * y), 4);
    expect(north).toBeCloseTo(0, 4);
  });
  expect(rms).toBeCloseTo(k, 4);
});

test("similarity: a stretch stays as the residuals", () => {
  const k = 0.5;
  const corners = [-400, 400].flatMap((x) => [-400, 400].map((y) => [x, y] as const));
  const { matrix, residuals, rms } = fit(
    // Pixels run down: y is turned over before the sign pattern.
    pinsOf(corners, (x, y) => [0.1 * x + k * Math.sign(x), -0.1 * y - k * Math.sign(-y)]),
    "similarity",
  );
  for (const [index, value] of [0.1, 0, 0, -0.1].entries()) expect(matrix[index]).toBeCloseTo(value, 7);
  residuals.forEach(({ east, north }, index) => {
    const [x, y] = corners[index] as readonly [number, number];
    expect(east).toBeCloseTo(-k * Math.sign(x), 4);
    expect(north).toBeCloseTo(k * Math.sign(-y), 4);
  });
  expect(rms).toBeCloseTo(k * Math.SQRT2, 4);
});
