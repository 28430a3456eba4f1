import { describe, expect, it } from "vitest";
import { inverse } from "@/lib/earth";
import { FIX_OUTCOMES, fixSchema, locate, tapeUncertainty } from "@/lib/survey";

const firingPoint = { latitude: 51, longitude: 4, height: 20 };
const taped = { outcome: "landed", method: "bearing-distance", bearing: 40, distance: 100 };
const position = { outcome: "landed", method: "position", latitude: 51.001, longitude: 4.001 };

const issues = (entry: unknown) => {
  const parsed = fixSchema.safeParse(entry);
  return parsed.success
    ? []
    : parsed.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`);
};

describe("what a judge enters", () => {
  it("takes each method and each outcome", () => {
    expect(fixSchema.parse(taped)).toEqual({ ...taped, north: "true" });
    expect(fixSchema.parse(position)).toEqual({ ...position, accuracyLevel: 95 });
    for (const outcome of FIX_OUTCOMES.filter((each) => each !== "landed")) {
      expect(fixSchema.parse({ outcome })).toEqual({ outcome });
    }
  });

  it.each([
    [{}, "outcome: Choose an outcome: landed, foul, misfire or burst."],
    [
      { outcome: "landed" },
      "method: Choose a method: bearing-distance, position, centreline-offset, two-tapes, tapes, laser, bearings, position-samples, position-mean, spotters or map-tap.",
    ],
    [
      { ...taped, distance: -1 },
      "distance: The distance cannot be negative: a throw backwards has its own bearing.",
    ],
    [
      { ...taped, distance: 40_000 },
      "distance: The distance is more than 10 km: check the number and its unit.",
    ],
    [{ ...taped, distance: Number.NaN }, "distance: Enter the distance from the firing point."],
    [{ ...taped, bearing: 361 }, "bearing: The bearing lies between 0 and 360 degrees."],
    [{ ...taped, bearing: undefined }, "bearing: Enter the bearing in degrees."],
    [{ ...taped, north: "magnetic" }, "declination: A magnetic bearing needs the declination of the place."],
    [{ ...position, latitude: 91 }, "latitude: The latitude lies between −90 and 90 degrees."],
    [{ ...position, accuracy: 0 }, "accuracy: The accuracy is above zero."],
  ])("%j: %s", (entry, sentence) => expect(issues(entry)).toEqual([sentence]));

  it("refuses what does not belong together", () => {
    expect(issues({ outcome: "foul", distance: 3 })).toHaveLength(1);
    expect(issues({ ...taped, latitude: 51 })).toHaveLength(1);
  });
});

describe("where it landed", () => {
  const at = (entry: unknown) => {
    const located = locate(fixSchema.parse(entry), firingPoint);
    if (!located) throw new Error("A landed fix has a place.");
    return located;
  };

  it("is nowhere for a foul, a misfire and a burst", () => {
    for (const outcome of ["foul", "misfire", "burst"] as const)
      expect(locate({ outcome }, firingPoint)).toBeNull();
  });

  it("lies on the bearing; the mark is the distance as taped, not rounded", () => {
    const located = at({ ...taped, distance: 100.129 });
    expect(located.mark).toBe(100.129);
    expect(inverse(firingPoint, located.point).bearing).toBeCloseTo(40, 6);
  });

  it("adds an east declination to a magnetic bearing", () => {
    expect(at({ ...taped, north: "magnetic", declination: 5 }).bearing).toBeCloseTo(45, 9);
    expect(at({ ...taped, bearing: 2, north: "magnetic", declination: -5 }).bearing).toBeCloseTo(357, 9);
    expect(at({ ...taped, declination: 5 }).bearing).toBeCloseTo(40, 9);
  });

  it("is long across the bearing by compass and tape: due north the error lies east and west", () => {
    const [east, cross, north] = at({ ...taped, bearing: 0 }).covariance;
    expect(Math.sqrt(east)).toBeCloseTo(100 * (Math.PI / 180), 9);
    expect(Math.sqrt(north)).toBeCloseTo(tapeUncertainty(100), 9);
    expect(cross).toBeCloseTo(0, 12);
    // On the right-hand diagonal, south-east is across.
    expect(at({ ...taped, bearing: 45 }).covariance[1]).toBeLessThan(0);
  });

  it("gives an expanded uncertainty of the mark at k = 2", () => {
    expect(at({ ...taped, distanceUncertainty: 0.3 }).uncertainty).toBeCloseTo(0.6, 12);
    expect(at({ ...position, accuracy: 5 }).uncertainty).toBeCloseTo((2 * 5) / 2.44775, 4);
    expect(at({ ...position, accuracy: 5, accuracyLevel: 68 }).uncertainty).toBeCloseTo((2 * 5) / 1.50959, 4);
  });

  it("may be the firing point itself", () => {
    expect(at({ ...taped, distance: 0 })).toMatchObject({ mark: 0 });
    expect(at({ ...position, latitude: 51, longitude: 4 }).mark).toBe(0);
  });
});
