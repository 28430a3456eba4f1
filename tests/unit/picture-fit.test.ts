/** Pinning a picture to the ground: what is refused, what is warned about, which model is taken. */
import { describe, expect, test } from "vitest";
import {
  type FitAnswer,
  fitPicture,
  localPlane,
  type PictureFit,
  type PicturePin,
  pixelToPoint,
} from "@/lib/earth";

const SITE = { latitude: 44.2, longitude: -31.6 };
const plane = localPlane(SITE);

/** A pin at a pixel, its ground by a transform of (x, −y), with what is added to it in m. */
function pin(
  x: number,
  y: number,
  ground: (x: number, up: number) => [number, number],
  [dx, dy] = [0, 0],
): PicturePin {
  const [east, north] = ground(x, -y);
  return { x, y, ...plane.toPoint({ east: east + dx, north: north + dy }) };
}

const turned = (x: number, up: number): [number, number] => [
  0.2 * x - 0.1 * up - 90,
  0.1 * x + 0.2 * up + 40,
];
const mirrored = (x: number, up: number): [number, number] => turned(-x, up);
const stretched = (x: number, up: number): [number, number] => [0.25 * x - 90, 0.15 * up + 40];

const corners = (ground: typeof turned) =>
  [
    [10, 20],
    [900, 40],
    [880, 700],
    [30, 650],
  ].map(([x, y]) => pin(x as number, y as number, ground));

const fitted = (answer: FitAnswer): PictureFit => {
  if (!answer.ok) throw new Error(answer.problem);
  return answer.fit;
};
const refused = (answer: FitAnswer): string => (answer.ok ? "" : answer.problem);

describe("which model", () => {
  test("two pins turn, scale and shift it, and nothing checks them", () => {
    const fit = fitted(fitPicture(corners(turned).slice(0, 2)));
    expect([fit.model, fit.checks]).toEqual(["similarity", 0]);
    expect(fit.warnings[0]).toMatch(/Nothing checks/);
    const there = plane.toPlane(pixelToPoint(fit, 500, 300));
    expect(there.east).toBeCloseTo(turned(500, -300)[0], 3);
    expect(there.north).toBeCloseTo(turned(500, -300)[1], 3);
  });

  test("three pins leave a similarity two numbers that check it; an affine fit is there for the asking", () => {
    const three = corners(stretched).slice(0, 3);
    expect(fitted(fitPicture(three))).toMatchObject({ model: "similarity", checks: 2 });
    const affine = fitted(fitPicture(three, "affine"));
    expect(affine).toMatchObject({ model: "affine", checks: 0 });
    expect(affine.rms).toBeLessThan(1e-6);
  });

  test("four pins of a stretched scan are bent, of an evenly scaled one are not", () => {
    expect(fitted(fitPicture(corners(stretched))).model).toBe("affine");
    const careless = corners(turned).map((each, index) => {
      const { east, north } = plane.toPlane(each);
      return { ...each, ...plane.toPoint({ east: east + (index % 2), north }) };
    });
    expect(fitted(fitPicture(careless)).model).toBe("similarity");
  });

  test("a blunder shows in the residual of its pin", () => {
    const four = corners(turned);
    four[2] = pin(880, 700, turned, [8, 0]);
    const { residuals } = fitted(fitPicture([...four, pin(450, 350, turned)], "similarity"));
    const worst = residuals.reduce(
      (best, each, index) => (each.distance > (residuals[best]?.distance ?? 0) ? index : best),
      0,
    );
    expect(worst).toBe(2);
  });
});

describe("what is refused, in a sentence", () => {
  test.each<[string, PicturePin[], "affine" | undefined, RegExp]>([
    ["one pin", corners(turned).slice(0, 1), undefined, /at least two/],
    [
      "two pins on one pixel",
      [pin(5, 5, turned), { ...pin(5, 5, turned), latitude: 44.201 }],
      undefined,
      /one spot/,
    ],
    [
      "two pins with the same coordinates",
      [pin(5, 5, turned), { ...pin(5, 5, turned), x: 700 }],
      undefined,
      /same coordinates/,
    ],
    ["a mirrored picture", corners(mirrored), undefined, /mirrored/],
    ["a mirrored picture that may be stretched", corners(mirrored), "affine", /mirrored/],
    ["stretching by two pins", corners(turned).slice(0, 2), "affine", /three pins/],
    [
      "stretching by pins on a line",
      [pin(0, 0, turned), pin(400, 300, turned), pin(800, 600, turned)],
      "affine",
      /on a line/,
    ],
    [
      "pins on a line in the picture alone",
      [pin(0, 0, turned), pin(400, 300, turned, [60, -60]), pin(800, 600, turned)],
      undefined,
      /one of them is wrong/,
    ],
    [
      "a pin on another continent",
      [...corners(turned), { x: 1, y: 1, latitude: -44, longitude: 31 }],
      undefined,
      /kilometres/,
    ],
  ])("%s", (_, pins, model, words) => {
    expect(refused(fitPicture(pins, model))).toMatch(words);
  });

  test("pins on a line still place it without stretching, with a warning", () => {
    const fit = fitted(fitPicture([pin(0, 0, turned), pin(400, 300, turned), pin(800, 600, turned)]));
    expect(fit.model).toBe("similarity");
    expect(fit.warnings.join(" ")).toMatch(/nearly on a line/);
  });
});

test("a site on the date line is fitted like any other", () => {
  const there = localPlane({ latitude: -17, longitude: 180 });
  const pins = corners(turned).map(({ x, y }) => {
    const [east, north] = turned(x, -y);
    return { x, y, ...there.toPoint({ east, north }) };
  });
  const fit = fitted(fitPicture(pins, "similarity"));
  expect(fit.rms).toBeLessThan(1e-4);
  expect(fit.pixel).toBeCloseTo(Math.hypot(0.2, 0.1), 6);
});
