/** A field with pegs for the tests of measuring, and people on it who measure as exactly as they are told to. */
import { type GeoPoint, groundInverse, localPlane } from "@/lib/earth";
import {
  FIRING_POINT,
  type FixInput,
  fixSchema,
  type Located,
  measure,
  type Peg,
  type Site,
} from "@/lib/survey";

export const FIRING = { latitude: 48.3, longitude: 15.2, height: 650 };
const plane = localPlane(FIRING, FIRING.height);

export const at = (east: number, north: number): GeoPoint => plane.toPoint({ east, north });

export const peg = (name: string, east: number, north: number, uncertainty = 0): Peg => ({
  ...at(east, north),
  name,
  height: FIRING.height,
  uncertainty,
});

export const PEGS: Record<string, Peg> = {
  a: peg("Ash", -45, 25),
  b: peg("Birch", 80, 60),
  c: peg("Cherry", 30, 210),
  d: peg("Damson", -90, 150),
};
export const SITE: Site = { firingPoint: FIRING, pegs: PEGS, declination: 4, centreline: 10 };

export const from = (site: Site, id: string): Peg =>
  id === FIRING_POINT ? { name: "the firing point", ...site.firingPoint } : (site.pegs?.[id] as Peg);

/** Distance (m) and bearing (degrees) of a point from a peg. */
export const seen = (site: Site, id: string, point: GeoPoint) =>
  groundInverse(from(site, id), point, FIRING.height);

export function measured(
  input: FixInput,
  site: Site = SITE,
): { located: Located; codes: string[]; texts: string[] } {
  const { located, warnings } = measure(fixSchema.parse(input), site);
  if (!located) throw new Error(`No point: ${warnings.map(({ text }) => text).join(" ")}`);
  return { located, codes: warnings.map(({ code }) => code), texts: warnings.map(({ text }) => text) };
}

/** What is said when no point comes out. */
export function refused(input: FixInput, site: Site = SITE) {
  const { located, warnings } = measure(fixSchema.parse(input), site);
  if (located) throw new Error("A point came out.");
  return warnings;
}

/** m between two points. */
export const apart = (first: GeoPoint, second: GeoPoint) =>
  groundInverse(first, second, FIRING.height).distance;

/** Standard uncertainties with which they measure: so large that every source shows. */
export const SIGMA = {
  tape: 0.05,
  bearing: 0.3,
  elevation: 0.4,
  rise: 0.4,
  rightAngle: 1.5,
  centreline: 0.3,
} as const;

const RADIANS = Math.PI / 180;
const INSTRUMENT = 1.6;
const TARGET = 2.1;

/**
 * One point measured in every way from the pegs of a site, each number off by `error()` of its standard uncertainties.
 * The ground at the point lies `rise` above every peg. `north`: what compasses are off by in truth, degrees.
 */
export function observations(
  site: Site,
  point: GeoPoint,
  error: () => number = () => 0,
  { rise = 0, north = site.declination ?? 0 } = {},
) {
  const turn = (degrees: number) => ((degrees % 360) + 360) % 360;
  const tape = (id: string) => ({
    from: id,
    distance: seen(site, id, point).distance + SIGMA.tape * error(),
    uncertainty: SIGMA.tape,
  });
  const bearing = (id: string) => turn(seen(site, id, point).bearing + SIGMA.bearing * error());
  const sight = (id: string) => ({
    from: id,
    bearing: turn(bearing(id) - north),
    north: "magnetic" as const,
    uncertainty: SIGMA.bearing,
  });
  const up = rise + TARGET - INSTRUMENT;
  const slant = (id: string) => {
    const { distance } = seen(site, id, point);
    return {
      range: Math.hypot(distance, up) + SIGMA.tape * error(),
      elevation: Math.atan2(up, distance) / RADIANS + SIGMA.elevation * error(),
    };
  };
  const heights = { instrumentHeight: INSTRUMENT, targetHeight: TARGET };
  const polar = {
    outcome: "landed",
    method: "bearing-distance",
    distanceUncertainty: SIGMA.tape,
    bearingUncertainty: SIGMA.bearing,
  } as const;
  const ahead = seen(site, FIRING_POINT, point);
  const off = (ahead.bearing - (site.centreline ?? 0)) * RADIANS;
  // The offset leaves the centreline askew by the error of the right angle, at another staked bearing.
  const staked = SIGMA.centreline * RADIANS * error();
  const askew = SIGMA.rightAngle * RADIANS * error();
  const offset = (ahead.distance * Math.sin(off + staked)) / Math.cos(askew);

  return {
    polar: { ...polar, from: "a", bearing: bearing("a"), distance: tape("a").distance },
    zenith: (() => {
      const { range, elevation } = slant("a");
      return {
        ...polar,
        from: "a",
        bearing: bearing("a"),
        distance: range,
        slope: "zenith",
        zenith: 90 - elevation,
        angleUncertainty: SIGMA.elevation,
        ...heights,
      } as const;
    })(),
    rise: {
      ...polar,
      from: "b",
      bearing: bearing("b"),
      distance: slant("b").range,
      slope: "rise",
      rise: rise + SIGMA.rise * error(),
      riseUncertainty: SIGMA.rise,
      ...heights,
    },
    laser: (() => {
      const { range, elevation } = slant("c");
      return {
        outcome: "landed",
        method: "laser",
        from: "c",
        range,
        inclination: elevation,
        bearing: turn(bearing("c") - north),
        north: "magnetic",
        rangeUncertainty: SIGMA.tape,
        inclinationUncertainty: SIGMA.elevation,
        bearingUncertainty: SIGMA.bearing,
        ...heights,
      } as const;
    })(),
    centreline: {
      outcome: "landed",
      method: "centreline-offset",
      along: ahead.distance * Math.cos(off + staked) - offset * Math.sin(askew) + SIGMA.tape * error(),
      offset: Math.abs(offset + SIGMA.tape * error()),
      side: offset > 0 ? "right" : "left",
      alongUncertainty: SIGMA.tape,
      offsetUncertainty: SIGMA.tape,
      rightAngleUncertainty: SIGMA.rightAngle,
      centrelineUncertainty: SIGMA.centreline,
    },
    twoTapes: { outcome: "landed", method: "two-tapes", tapes: [tape("a"), tape("b")], side: "left" },
    tapes: {
      outcome: "landed",
      method: "tapes",
      tapes: [tape("a"), tape("b"), tape("c"), tape("a"), tape(FIRING_POINT)],
    },
    bearings: { outcome: "landed", method: "bearings", bearings: [sight("a"), sight("b"), sight("d")] },
    spotters: { outcome: "landed", method: "spotters", bearings: [sight("d"), sight("b")] },
    position: { outcome: "landed", method: "position", ...point },
    samples: {
      outcome: "landed",
      method: "position-samples",
      samples: [0, 40, 80].map((seconds) => ({ ...point, accuracy: 5, seconds })),
    },
    mean: { outcome: "landed", method: "position-mean", ...point, count: 60, seconds: 120, accuracy: 5 },
    mapTap: { outcome: "landed", method: "map-tap", ...point, metresPerPixel: 0.3 },
  } satisfies Record<string, FixInput>;
}
