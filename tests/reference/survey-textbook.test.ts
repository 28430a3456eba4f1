/**
 * Each way to measure against a textbook case that can be worked on paper, none of it by lib/survey's own code.
 *
 * Sources, as far as they are formulas of elementary surveying all from memory: right triangles of 3-4-5; trilateration
 * from a base b, x = (r₁² − r₂² + b²)/2b and y = √(r₁² − x²), on the triangle of 13-14-15, whose height on 14 is 12 and
 * stands 5 from its end; forward intersection by the rule of sines, a = b·sin β/sin(α + β); the weighted mean with weights
 * 1/u² and its variance 1/Σw (Gauss-Markov theorem); the normal equations of N ranges evenly about a point, by which a
 * range that is longer by d moves it by 2d/N. Sums of variances: JCGM 100:2008, 5.1.2. Radius that holds a share p of a
 * circular normal distribution: σ·√(−2·ln(1 − p)).
 */
import { describe, expect, it } from "vitest";
import { FIRING_POINT, type FixInput, METHODS, type Site } from "@/lib/survey";
import { DEFAULT_UNCERTAINTY } from "@/lib/survey/uncertainty";
import { apart, at, FIRING, measured, peg } from "../unit/survey-site";

const RADIANS = Math.PI / 180;
/** A base of 140 m, 40 m north of the firing point. */
const SITE: Site = {
  firingPoint: FIRING,
  pegs: { west: peg("West", 0, 40), east: peg("East", 140, 40) },
  centreline: 0,
};
const radius = (accuracy: number) => accuracy / Math.sqrt(-2 * Math.log(1 - 0.95));

interface Worked {
  what: string;
  fix: FixInput;
  site?: Site;
  /** m east and north of the firing point. */
  point: [number, number];
  /** Variances east and north, m², where the case gives them. */
  variances?: [number, number];
}

const landed = { outcome: "landed" } as const;
const ring = Array.from({ length: 6 }, (_, index) => {
  const angle = (2 * Math.PI * index) / 6;
  return [`p${index}`, peg(`P${index}`, 100 * Math.sin(angle), 100 + 100 * Math.cos(angle))] as const;
});

const CASES: Worked[] = [
  {
    what: "polar: 100 m on 36.87° is 60 east and 80 north, its errors along and across",
    fix: {
      ...landed,
      method: "bearing-distance",
      bearing: Math.atan2(60, 80) / RADIANS,
      distance: 100,
      distanceUncertainty: 0.3,
      bearingUncertainty: 0.1 / RADIANS / 100,
    },
    point: [60, 80],
    variances: [0.3 ** 2 * 0.36 + 0.1 ** 2 * 0.64, 0.3 ** 2 * 0.64 + 0.1 ** 2 * 0.36],
  },
  {
    what: "offset: 80 m along and 60 m to the right of a centreline due north",
    fix: {
      ...landed,
      method: "centreline-offset",
      along: 80,
      offset: 60,
      side: "right",
      alongUncertainty: 0.04,
      offsetUncertainty: 0.03,
      rightAngleUncertainty: 1,
      centrelineUncertainty: 0.5,
    },
    point: [60, 80],
    // The right angle turns the offset about its foot, the centreline the whole about the firing point.
    variances: [
      0.03 ** 2 + (80 * 0.5 * RADIANS) ** 2,
      0.04 ** 2 + (60 * RADIANS) ** 2 + (60 * 0.5 * RADIANS) ** 2,
    ],
  },
  {
    what: "two tapes: 130 and 150 m from the ends of 140 m",
    fix: {
      ...landed,
      method: "two-tapes",
      tapes: [
        { from: "west", distance: 130 },
        { from: "east", distance: 150 },
      ],
      side: "left",
    },
    point: [50, 160],
  },
  {
    what: "six tapes from all sides, one 0.3 m too long: a third of that farther from its peg",
    fix: {
      ...landed,
      method: "tapes",
      tapes: ring.map(([from], index) => ({ from, distance: index === 0 ? 100.3 : 100, uncertainty: 0.5 })),
    },
    site: { firingPoint: FIRING, pegs: Object.fromEntries(ring) },
    point: [0, 99.9],
    variances: [(2 * 0.5 ** 2) / 6, (2 * 0.5 ** 2) / 6],
  },
  {
    what: "laser: 50 m at 36.87° covers 40 m, to a target that stands as high as the instrument",
    fix: {
      ...landed,
      method: "laser",
      from: "west",
      range: 50,
      inclination: Math.atan2(30, 40) / RADIANS,
      bearing: 90,
      instrumentHeight: 1.6,
      targetHeight: 1.6,
      rangeUncertainty: 0.5,
      inclinationUncertainty: 0.5,
      bearingUncertainty: 0.5,
    },
    point: [40, 40],
    // Of range·cos(inclination): the range by the cosine, the angle by the height.
    variances: [(0.8 * 0.5) ** 2 + (30 * 0.5 * RADIANS) ** 2, (40 * 0.5 * RADIANS) ** 2],
  },
  {
    what: "two bearings at 60° and 30° to the base: a right angle at the point, sides by the rule of sines",
    fix: {
      ...landed,
      method: "bearings",
      bearings: [
        { from: "west", bearing: 30 },
        { from: "east", bearing: 300 },
      ],
    },
    point: [
      140 * Math.sin(30 * RADIANS) * Math.cos(60 * RADIANS),
      40 + 140 * Math.sin(30 * RADIANS) * Math.sin(60 * RADIANS),
    ],
  },
  {
    what: "two spotters at 45° to the base: across each line 2° of 70·√2 m",
    fix: {
      ...landed,
      method: "spotters",
      bearings: [
        { from: "west", bearing: 45, uncertainty: 2 },
        { from: "east", bearing: 315, uncertainty: 2 },
      ],
    },
    point: [70, 110],
    variances: [(70 * Math.SQRT2 * 2 * RADIANS) ** 2, (70 * Math.SQRT2 * 2 * RADIANS) ** 2],
  },
  {
    what: "a position whose radius holds 95 %",
    fix: { ...landed, method: "position", ...at(60, 80), accuracy: 5 },
    point: [60, 80],
    variances: [radius(5) ** 2, radius(5) ** 2],
  },
  {
    what: "two positions 3 m apart of 4 and 8 m: the weights are 4 to 1",
    fix: {
      ...landed,
      method: "position-samples",
      samples: [
        { ...at(60, 80), accuracy: 4, seconds: 0 },
        { ...at(63, 80), accuracy: 8, seconds: 60 },
      ],
    },
    point: [60.6, 80],
  },
  {
    what: "a mean of two positions at one moment is worth one position",
    fix: { ...landed, method: "position-mean", ...at(60, 80), count: 2, seconds: 0, accuracy: 5 },
    point: [60, 80],
    variances: [radius(5) ** 2, radius(5) ** 2],
  },
  {
    what: "a tap: the fingertip's pixels and the map's own error, squared and added",
    fix: { ...landed, method: "map-tap", ...at(60, 80), metresPerPixel: 0.4, mapUncertainty: 3 },
    point: [60, 80],
    variances: [(DEFAULT_UNCERTAINTY.tap * 0.4) ** 2 + 3 ** 2, (DEFAULT_UNCERTAINTY.tap * 0.4) ** 2 + 3 ** 2],
  },
];

describe("worked on paper", () => {
  it.each(CASES)("$what", ({ fix, site = SITE, point: [east, north], variances }) => {
    const { located } = measured(fix, site);
    // The north of a peg 140 m east is turned by 140 m·tan 48.3°/R, which over 120 m is 3 mm.
    expect(apart(located.point, at(east, north))).toBeLessThan(4e-3);
    expect(located.mark).toBeCloseTo(Math.hypot(east, north), 2);
    if (!variances) return;
    expect(located.covariance[0] / variances[0]).toBeCloseTo(1, 3);
    expect(located.covariance[2] / variances[1]).toBeCloseTo(1, 3);
  });

  it("leaves out no way to measure", () => {
    const ways = CASES.flatMap(({ fix }) => (fix.outcome === "landed" ? [fix.method] : []));
    expect(ways.sort()).toEqual(METHODS.map(({ method }) => method).sort());
  });

  it("the tape of the firing point is a peg like the others", () => {
    const fix: FixInput = {
      ...landed,
      method: "two-tapes",
      tapes: [
        { from: FIRING_POINT, distance: 50 },
        { from: "west", distance: 30 },
      ],
      side: "right",
    };
    // 3-4-5 again: the peg stands 40 m north of the firing point, and the right angle at it.
    expect(apart(measured(fix, SITE).located.point, at(30, 40))).toBeLessThan(2e-3);
  });
});
