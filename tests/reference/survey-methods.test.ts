/**
 * Sources: JCGM 100:2008 (first-order propagation, which lib/survey uses) against JCGM 101:2008 (Monte Carlo), for every
 * method that measures from pegs: the pegs, the firing point and the compass north are drawn as well as the numbers.
 * Closed forms (textbook geometry of least squares): two ranges of equal uncertainty σ that cross at γ have a total
 * variance of 2σ²/sin²γ; N ranges evenly about a point give 2σ²/N along every axis and redundancy numbers (N−2)/N.
 * Mean of an exponentially correlated series over a time T: variance σ²·(2τ/T)·(1 − (τ/T)(1 − e^(−T/τ))).
 * Limit of data snooping: 3.29, two-sided 0.1 % of the normal distribution (Baarda 1968, from memory). Chi-square
 * quantiles: NIST/SEMATECH e-Handbook, 1.3.6.7.4 (from memory).
 */
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { describe, expect, it } from "vitest";
import { type GeoPoint, localPlane } from "@/lib/earth";
import {
  BLUNDER_LIMIT,
  combine,
  FIRING_POINT,
  type FixInput,
  fixSchema,
  measure,
  type Site,
} from "@/lib/survey";
import { chiSquareAbove, chiSquareQuantile } from "@/lib/survey/chi-square";
import { averagedShare, SATELLITES } from "@/lib/survey/methods/receiver";
import { apart, at, FIRING, from, measured, observations, peg, seen } from "../unit/survey-site";

const DRAWS = 2000;
const NORTH = { uncertainty: 0.4, declination: 4 };
const PLACE = { peg: 0.04, firingPoint: 0.06 };
const POINT = at(15, 110);
const RISE = 9;

/** The site as it is believed to be. */
const SITE: Site = {
  firingPoint: { ...FIRING, uncertainty: PLACE.firingPoint },
  pegs: {
    a: peg("Ash", -45, 25, PLACE.peg),
    b: peg("Birch", 80, 60, PLACE.peg),
    c: peg("Cherry", 30, 210, PLACE.peg),
    d: peg("Damson", -90, 150, PLACE.peg),
  },
  declination: NORTH.declination,
  declinationUncertainty: NORTH.uncertainty,
  centreline: 10,
};
const plane = localPlane(FIRING, FIRING.height);

function normals(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  return () =>
    Math.sqrt(-2 * Math.log(1 - uniformFloat64(generator))) *
    Math.cos(2 * Math.PI * uniformFloat64(generator));
}

/** The site as it may be in truth. */
function trueSite(normal: () => number): { site: Site; north: number } {
  const moved = <P extends GeoPoint>(point: P, sigma: number): P => {
    const { east, north } = plane.toPlane(point);
    return { ...point, ...plane.toPoint({ east: east + sigma * normal(), north: north + sigma * normal() }) };
  };
  const pegs = Object.entries(SITE.pegs ?? {}).map(([id, each]) => [id, moved(each, PLACE.peg)] as const);
  const site = {
    ...SITE,
    firingPoint: moved(SITE.firingPoint, PLACE.firingPoint),
    pegs: Object.fromEntries(pegs),
  };
  return { site, north: NORTH.declination + NORTH.uncertainty * normal() };
}

class Sums {
  private readonly sum = [0, 0, 0, 0, 0, 0, 0];
  add(east: number, north: number, mark: number) {
    [east, north, mark, east * east, east * north, north * north, mark * mark].forEach((value, index) => {
      (this.sum[index] as number) += value;
    });
  }
  covariance() {
    const [e, n, m, ee, en, nn, mm] = this.sum.map((value) => value / DRAWS) as [
      number,
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return {
      seen: [ee - e * e, en - e * n, nn - n * n] as const,
      mark: Math.sqrt(mm - m * m),
      shift: [e, n],
    };
  }
}

type Way = keyof ReturnType<typeof observations>;

/** Asserts that the stated covariance and mark's uncertainty are those of what was drawn, to what the draws can tell. */
function agree(way: Way, seed: number) {
  const normal = normals(seed);
  const stated = measured(observations(SITE, POINT, undefined, { rise: RISE })[way], SITE).located;
  const sums = new Sums();
  for (let draw = 0; draw < DRAWS; draw++) {
    const truth = trueSite(normal);
    const entry = observations(truth.site, POINT, normal, { rise: RISE, north: truth.north })[way];
    const { located } = measured(entry as FixInput, SITE);
    const [found, real] = [plane.toPlane(located.point), plane.toPlane(POINT)];
    const origin = plane.toPlane(truth.site.firingPoint);
    // As seen from the firing point, which is thought to be the plane's origin.
    sums.add(
      found.east - real.east + origin.east,
      found.north - real.north + origin.north,
      located.mark - apart(truth.site.firingPoint, POINT),
    );
  }
  const drawn = sums.covariance();
  const size = Math.max(stated.covariance[0], stated.covariance[2]);
  for (const index of [0, 1, 2] as const)
    expect(Math.abs(drawn.seen[index] - stated.covariance[index])).toBeLessThan(
      4 * Math.sqrt(2 / DRAWS) * size,
    );
  // A standard deviation is known from so many draws to 1/√(2·DRAWS) of itself.
  expect(Math.abs(drawn.mark / (stated.uncertainty / 2) - 1)).toBeLessThan(4 / Math.sqrt(2 * DRAWS));
}

describe("first order against Monte Carlo, pegs and north drawn too", () => {
  it.each([
    ["polar", 1],
    ["zenith", 2],
    ["rise", 3],
    ["laser", 4],
    ["centreline", 5],
    ["twoTapes", 6],
    ["tapes", 7],
    ["bearings", 8],
    ["spotters", 9],
  ] as const)("%s", (way, seed) => agree(way, seed));

  it("two fixes that share a peg: the combined covariance, and one in twenty told to disagree", () => {
    const normal = normals(10);
    const ways = ["polar", "zenith", "twoTapes"] as const;
    const exact = observations(SITE, POINT, undefined, { rise: RISE });
    const stated = combine(
      ways.map((way) => measured(exact[way], SITE).located),
      SITE,
    ).located;
    if (!stated) throw new Error("Exact measurements agree.");
    const sums = new Sums();
    let refused = 0;
    for (let draw = 0; draw < DRAWS; draw++) {
      const truth = trueSite(normal);
      const entries = observations(truth.site, POINT, normal, { rise: RISE, north: truth.north });
      const together = combine(
        ways.map((way) => measured(entries[way], SITE).located),
        SITE,
      );
      if (together.chiSquare > together.limit) refused++;
      if (!together.located) {
        sums.add(0, 0, 0);
        continue;
      }
      const [found, real] = [plane.toPlane(together.located.point), plane.toPlane(POINT)];
      const origin = plane.toPlane(truth.site.firingPoint);
      sums.add(found.east - real.east + origin.east, found.north - real.north + origin.north, 0);
    }
    const drawn = sums.covariance();
    const size = Math.max(stated.covariance[0], stated.covariance[2]);
    // What disagrees is left out, and what it would have added is no larger than that share.
    const tolerance = (4 * Math.sqrt(2 / DRAWS) + refused / DRAWS) * size;
    for (const index of [0, 1, 2] as const)
      expect(Math.abs(drawn.seen[index] - stated.covariance[index])).toBeLessThan(tolerance);
    expect(Math.abs(refused / DRAWS - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / DRAWS));
  });
});

const tape = (id: string, site: Site, point: GeoPoint, error = 0, uncertainty = 0.1) => ({
  from: id,
  distance: seen(site, id, point).distance + error,
  uncertainty,
});

describe("closed forms", () => {
  it.each([90, 60, 20, 140])("two tapes that cross at %d°: a total variance of 2σ²/sin²γ", (angle) => {
    const half = (angle / 2) * (Math.PI / 180);
    const pegs = {
      l: peg("Left", -100 * Math.sin(half), 0),
      r: peg("Right", 100 * Math.sin(half), 0),
    };
    const point = at(0, 100 * Math.cos(half));
    const site = { firingPoint: FIRING, pegs };
    const { located } = measured(
      {
        outcome: "landed",
        method: "two-tapes",
        side: "left",
        tapes: [tape("l", site, point), tape("r", site, point)],
      },
      site,
    );
    const total = located.covariance[0] + located.covariance[2];
    expect(total / ((2 * 0.1 ** 2) / Math.sin(2 * half) ** 2)).toBeCloseTo(1, 5);
  });

  it("N tapes evenly about the point: 2σ²/N along every axis, redundancy (N−2)/N, residual of a blunder", () => {
    const count = 6;
    const ring = Array.from({ length: count }, (_, index) => {
      const angle = (2 * Math.PI * index) / count;
      return [`p${index}`, peg(`P${index}`, 100 * Math.sin(angle), 100 + 100 * Math.cos(angle))] as const;
    });
    const site = { firingPoint: FIRING, pegs: Object.fromEntries(ring) };
    const point = at(0, 100);
    const entry = (blunder: number): FixInput => ({
      outcome: "landed",
      method: "tapes",
      tapes: ring.map(([id], index) => tape(id, site, point, index === 2 ? blunder : 0)),
    });
    const { located } = measured(entry(0), site);
    expect(located.covariance[0]).toBeCloseTo((2 * 0.01) / count, 6);
    expect(located.covariance[1]).toBeCloseTo(0, 6);
    expect(located.covariance[2]).toBeCloseTo((2 * 0.01) / count, 6);
    const share = (count - 2) / count;
    for (const { redundancy } of located.residuals) expect(redundancy).toBeCloseTo(share, 5);
    const blunder = measured(entry(1), site);
    const third = blunder.located.residuals[2];
    expect(third?.value).toBeCloseTo(share * 1, 2);
    expect(third?.normalised).toBeCloseTo(Math.sqrt(share) / 0.1, 1);
    expect(third?.blunder).toBeCloseTo(1, 2);
    expect(blunder.codes).toEqual(["blunder-suspect"]);
  });

  it("bearings of 45° and 315° from both ends of a base of 100 m meet 50 m before its middle", () => {
    const site = { firingPoint: FIRING, pegs: { l: peg("Left", -50, 0), r: peg("Right", 50, 0) } };
    const sight = (id: string, bearing: number) => ({ from: id, bearing });
    const { located } = measured(
      { outcome: "landed", method: "bearings", bearings: [sight("l", 45), sight("r", 315)] },
      site,
    );
    // True bearings at two pegs are not counted from parallel norths: 50 m east of the middle they turn by 2 seconds.
    expect(apart(located.point, at(0, 50))).toBeLessThan(1e-3);
    // Each eye is off by σ at √2·50 m, across each other.
    const across = Math.SQRT2 * 50 * (Math.PI / 180);
    expect(located.covariance[0]).toBeCloseTo(across ** 2, 3);
    expect(located.covariance[2]).toBeCloseTo(across ** 2, 3);
  });

  it("3-4-5: a tape of 5 m up a rise of 3 m, or at 36.87°, covers 4 m", () => {
    const entry = { outcome: "landed", method: "bearing-distance", bearing: 0, distance: 5 } as const;
    expect(measured({ ...entry, slope: "rise", rise: 3 }).located.mark).toBeCloseTo(4, 12);
    const angle = Math.atan2(3, 4) / (Math.PI / 180);
    expect(measured({ ...entry, slope: "elevation", elevation: angle }).located.mark).toBeCloseTo(4, 12);
    expect(measured({ ...entry, slope: "zenith", zenith: 90 - angle }).located.mark).toBeCloseTo(4, 12);
    // The instrument 1.5 m up and the target 2.5 m: of the rise between them, 2 m are the ground's.
    const heights = { instrumentHeight: 1.5, targetHeight: 2.5 };
    expect(measured({ ...entry, slope: "rise", rise: 2, ...heights }).located.mark).toBeCloseTo(4, 12);
  });

  it.each([5, 60, 600])("the mean over %d s of a correlated series", (time) => {
    const count = 2000;
    const times = Array.from({ length: count }, (_, index) => (time * index) / (count - 1));
    const x = SATELLITES.correlationTime / time;
    const share = averagedShare(
      times,
      times.map(() => 1),
    );
    expect(share).toBeCloseTo(2 * x * (1 - x * (1 - Math.exp(-1 / x))), 2);
  });

  it("independent positions average by their count, and the lasting part stays", () => {
    expect(averagedShare([0, 1e6, 2e6, 3e6], [1, 1, 1, 1])).toBeCloseTo(1 / 4, 12);
    const mean = (count: number, seconds: number) =>
      measured({ outcome: "landed", method: "position-mean", ...POINT, count, seconds, accuracy: 8 }, SITE)
        .located;
    const single = measured({ outcome: "landed", method: "position", ...POINT, accuracy: 8 }, SITE).located;
    const share = (count: number, seconds: number) =>
      (mean(count, seconds).covariance[0] - PLACE.firingPoint ** 2) /
      (single.covariance[0] - PLACE.firingPoint ** 2);
    expect(share(100, 0)).toBeCloseTo(1, 9);
    expect(share(100, 120)).toBeLessThan(0.85);
    expect(share(80_000, 80_000)).toBeCloseTo(SATELLITES.biasShare ** 2, 2);
  });

  it("twenty phones do not mend what is common to all satellites", () => {
    const one = measured({ outcome: "landed", method: "position", ...POINT, accuracy: 8 }).located;
    const many = combine(
      Array.from({ length: 20 }, () => one),
      { firingPoint: FIRING },
    ).located;
    const common = SATELLITES.biasShare ** 2 * SATELLITES.commonShare;
    expect((many?.covariance[0] ?? 0) / one.covariance[0]).toBeCloseTo(common + (1 - common) / 20, 4);
  });
});

describe("a blunder", () => {
  const site = {
    ...SITE,
    pegs: Object.fromEntries(
      Object.entries(SITE.pegs ?? {}).map(([id, each]) => [id, { ...each, uncertainty: 0 }]),
    ),
  };

  it("is seen in sound tapes once in a thousand tapes at most", () => {
    const normal = normals(20);
    let told = 0;
    for (let draw = 0; draw < 1000; draw++) {
      const { codes } = measured(
        {
          outcome: "landed",
          method: "tapes",
          tapes: ["a", "b", "c", "d", FIRING_POINT].map((id) => tape(id, site, POINT, 0.1 * normal())),
        },
        { ...site, firingPoint: FIRING },
      );
      if (codes.some((code) => code.startsWith("blunder"))) told++;
    }
    expect(told).toBeLessThanOrEqual(5 + 4 * Math.sqrt(5));
  });

  it("is named with three tapes more than needed, and not with one", () => {
    const entry = (ids: string[]): FixInput => ({
      outcome: "landed",
      method: "tapes",
      tapes: ids.map((id) => tape(id, site, POINT, id === "c" ? 1 : 0)),
    });
    const three = measured(entry(["a", "b", "c", "d", FIRING_POINT]), site);
    expect(three.codes).toEqual(["blunder-suspect"]);
    expect(three.texts[0]).toContain("tape 3, from Cherry");
    const one = measured(entry(["a", "b", "c"]), site);
    expect(one.codes).toEqual(["blunder-not-located"]);
    for (const { normalised } of one.located.residuals)
      expect(Math.abs(normalised)).toBeCloseTo(Math.abs(one.located.residuals[0]?.normalised ?? 0), 6);
    expect(Math.abs(one.located.residuals[0]?.normalised ?? 0)).toBeGreaterThan(BLUNDER_LIMIT);
  });
});

describe("chi-square", () => {
  it.each([
    [0.95, 1, 3.841],
    [0.95, 2, 5.991],
    [0.95, 3, 7.815],
    [0.95, 4, 9.488],
    [0.95, 5, 11.07],
    [0.95, 10, 18.307],
    [0.95, 30, 43.773],
    [0.99, 1, 6.635],
    [0.99, 10, 23.209],
  ])("%d of %d degrees of freedom is below %d", (level, free, value) => {
    expect(chiSquareQuantile(level, free)).toBeCloseTo(value, 3);
    expect(chiSquareAbove(value, free)).toBeCloseTo(1 - level, 4);
  });
});

it("a peg that is off moves what is measured from it, and not a mark from itself", () => {
  expect(from(SITE, "a").uncertainty).toBe(PLACE.peg);
  const polar = {
    outcome: "landed",
    method: "bearing-distance",
    bearing: 20,
    distance: 80,
    distanceUncertainty: 0.01,
  } as const;
  const parsed = fixSchema.parse(polar);
  expect(measure(parsed, SITE).located?.uncertainty).toBeCloseTo(0.02, 9);
  const fromPeg = measured({ ...polar, from: "a", bearingUncertainty: 1e-6 }, SITE).located;
  const least = Math.hypot(PLACE.peg, PLACE.firingPoint);
  expect(fromPeg.covariance[0]).toBeGreaterThan(least ** 2);
});
