/**
 * Sources: JCGM 100:2008 (first-order propagation, which lib/survey uses) against JCGM 101:2008 (Monte Carlo),
 * for each method of measuring a landing point. As JCGM 101, clause 8, asks, the end points of the coverage
 * interval are compared too. Radius of a circular normal distribution: r = σ·√(−2·ln(1−p)), so 2.4477·σ for
 * 95 % (closed form).
 */
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, it } from "vitest";
import { groundDistance, localPlane } from "@/lib/earth";
import { DEFAULT_UNCERTAINTY, type Fix, type FixInput, fixSchema, locate } from "@/lib/survey";

const DRAWS = 10_000;
const SITE = { latitude: 48.3, longitude: 15.2, height: 650 };

/** Standard normal numbers (Box-Muller) from a seeded generator. */
function normals(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () =>
    Math.sqrt(-2 * Math.log(1 - uniformFloat64(generator))) *
    Math.cos(2 * Math.PI * uniformFloat64(generator));
}

interface Cloud {
  covariance: [number, number, number];
  marks: number[];
}

/** Places of fixes drawn around the true one, found by `locate` itself. */
function cloud(draw: () => Fix): Cloud {
  const plane = localPlane(SITE, SITE.height);
  const marks: number[] = [];
  const sums = { e: 0, n: 0, ee: 0, en: 0, nn: 0 };
  for (let index = 0; index < DRAWS; index++) {
    const located = locate(draw(), SITE);
    if (!located) throw new Error("A landed fix has a place.");
    const { east, north } = plane.toPlane(located.point);
    marks.push(located.mark);
    sums.e += east;
    sums.n += north;
    sums.ee += east * east;
    sums.en += east * north;
    sums.nn += north * north;
  }
  const [e, n] = [sums.e / DRAWS, sums.n / DRAWS];
  marks.sort((a, b) => a - b);
  return { covariance: [sums.ee / DRAWS - e * e, sums.en / DRAWS - e * n, sums.nn / DRAWS - n * n], marks };
}

const fixOf = (input: FixInput) => fixSchema.parse(input);

/** Asserts that first order and Monte Carlo agree to what the draws can tell (4 of their standard errors). */
function agree(input: FixInput, draw: () => Fix) {
  const located = locate(fixOf(input), SITE);
  if (!located) throw new Error("A landed fix has a place.");
  const { covariance, marks } = cloud(draw);
  const size = Math.max(located.covariance[0], located.covariance[2]);
  const tolerance = 4 * Math.sqrt(2 / DRAWS) * size;
  for (const index of [0, 1, 2] as const) {
    expect(Math.abs(covariance[index] - located.covariance[index])).toBeLessThan(tolerance);
  }
  // ±2σ of a normal distribution holds 95.45 %.
  const share = 0.9545;
  const low = marks[Math.floor(((1 - share) / 2) * DRAWS)] as number;
  const high = marks[Math.floor(((1 + share) / 2) * DRAWS)] as number;
  expect(Math.abs(low - (located.mark - located.uncertainty))).toBeLessThan(0.05 * located.uncertainty);
  expect(Math.abs(high - (located.mark + located.uncertainty))).toBeLessThan(0.05 * located.uncertainty);
}

describe("first order against Monte Carlo", () => {
  it.each([0, 33, 90, 200, 315])("bearing %d° and a taped distance, default uncertainties", (bearing) => {
    const normal = normals(1 + bearing);
    const distance = 143;
    const along = Math.hypot(DEFAULT_UNCERTAINTY.tapeConstant, DEFAULT_UNCERTAINTY.tapeProportion * distance);
    agree({ outcome: "landed", method: "bearing-distance", bearing, distance }, () =>
      fixOf({
        outcome: "landed",
        method: "bearing-distance",
        bearing: (bearing + DEFAULT_UNCERTAINTY.compass * normal() + 360) % 360,
        distance: distance + along * normal(),
      }),
    );
  });

  it("a range finder and a theodolite, whose uncertainties are told", () => {
    const normal = normals(7);
    const given = { distanceUncertainty: 0.8, bearingUncertainty: 0.05 };
    agree({ outcome: "landed", method: "bearing-distance", bearing: 70, distance: 260, ...given }, () =>
      fixOf({
        outcome: "landed",
        method: "bearing-distance",
        bearing: 70 + 0.05 * normal(),
        distance: 260 + 0.8 * normal(),
      }),
    );
  });

  it.each([
    ["95 % radius", 6, 95, 6 / 2.4477],
    ["68 % radius", 4, 68, 4 / 1.5096],
    ["no accuracy told", undefined, 95, DEFAULT_UNCERTAINTY.receiver],
  ] as const)("a position with %s", (_, accuracy, accuracyLevel, sigma) => {
    const normal = normals(11);
    const plane = localPlane(SITE, SITE.height);
    const place = { east: -80, north: 95 };
    const at = (east: number, north: number) => ({
      outcome: "landed" as const,
      method: "position" as const,
      ...plane.toPoint({ east, north }),
    });
    agree({ ...at(place.east, place.north), accuracy, accuracyLevel }, () =>
      fixOf(at(place.east + sigma * normal(), place.north + sigma * normal())),
    );
  });

  it("a reported 95 % radius holds 95 % of the positions that its covariance draws", () => {
    const located = locate(
      fixOf({ outcome: "landed", method: "position", latitude: 48.301, longitude: 15.2, accuracy: 5 }),
      SITE,
    );
    const sigma = Math.sqrt(located?.covariance[0] ?? 0);
    const normal = normals(3);
    let inside = 0;
    for (let index = 0; index < DRAWS; index++) {
      if (Math.hypot(sigma * normal(), sigma * normal()) <= 5) inside++;
    }
    expect(Math.abs(inside / DRAWS - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / DRAWS));
  });
});

describe("both methods", () => {
  it("give the same mark for the same place, on ground 650 m up", () => {
    const byTape = locate(
      fixOf({ outcome: "landed", method: "bearing-distance", bearing: 123, distance: 187.65 }),
      SITE,
    );
    if (!byTape) throw new Error("A landed fix has a place.");
    const byReceiver = locate(fixOf({ outcome: "landed", method: "position", ...byTape.point }), SITE);
    expect(byReceiver?.mark).toBeCloseTo(187.65, 6);
    expect(byReceiver?.bearing).toBeCloseTo(123, 6);
    // 187.65 m up there span 2 cm less of the ellipsoid.
    expect(groundDistance(SITE, byTape.point, 0)).toBeCloseTo(187.65 - 187.65 * (650 / 6_380_000), 3);
  });
});
