/** Spotters and walkers: headings of a phone, how sure a bearing is, the shot that comes next, and the way there. */
import { describe, expect, it } from "vitest";
import { type Heading, headingOf, steady } from "@/app/_ui/heading/heading";
import type { JudgeShot } from "@/app/contests/[contest]/judge/entry";
import { sightedValues } from "@/app/contests/[contest]/judge/from-sightings";
import { byCompass, byDial, byMap, likelyShot, sightingFor } from "@/app/contests/[contest]/spot/sight";
import { sightingRequest } from "@/lib/api/contracts";
import { type GeoPoint, groundDirect } from "@/lib/earth";
import { ellipseOf, wayThere } from "@/lib/survey";

const HOME = { latitude: 47, longitude: 11, height: 600 };
const oak = { ...HOME, id: "oak", name: "Oak", accuracy: 0, note: "", heightGiven: true, retired: false };

describe("the heading of a phone", () => {
  const turned = (alpha: number, beta: number, gamma: number) => ({ alpha, beta, gamma, absolute: true });
  it("is its top edge's while it lies flat, whichever way it is rolled a little", () => {
    // Alpha counts anticlockwise.
    expect(headingOf(turned(225, 0, 0))?.bearing).toBeCloseTo(135, 9);
    expect(headingOf(turned(0, 30, 0))?.bearing).toBeCloseTo(0, 9);
    expect(headingOf(turned(90, 10, 5))?.bearing).toBeCloseTo(270, 9);
  });
  it("is its back's when it is held upright, with no jump between", () => {
    expect(headingOf(turned(225, 90, 0))?.bearing).toBeCloseTo(135, 9);
    expect(headingOf(turned(225, 46, 0))?.bearing).toBeCloseTo(135, 9);
    // Upright on its long side, screen to the viewer: top edge to the left, back to the north.
    expect(headingOf(turned(90, 0, -90))?.bearing).toBeCloseTo(0, 9);
  });
  it("of an iPhone is what it says, unless it is not sure or held upright", () => {
    const phone = { alpha: 10, beta: 5, gamma: 0, absolute: false, webkitCompassHeading: 300 };
    expect(headingOf({ ...phone, webkitCompassAccuracy: 12 })).toEqual({ bearing: 300, accuracy: 12 });
    expect(headingOf({ ...phone, webkitCompassAccuracy: -1 })).toBeNull();
    expect(headingOf({ ...phone, webkitCompassAccuracy: 12, beta: 80 })).toBeNull();
  });
  it("is none where the angles do not count from north", () => {
    expect(headingOf({ alpha: 10, beta: 5, gamma: 0, absolute: false })).toBeNull();
  });
  it("of the last second is taken together, across north too", () => {
    const reading = (bearing: number, at: number): Heading => ({ bearing, at, accuracy: null });
    expect(steady([])).toBeNull();
    const mean = steady([reading(200, 0), reading(358, 2000), reading(2, 2500), reading(6, 2900)]);
    expect(mean?.bearing).toBeCloseTo(2, 9);
    // Of −4, 0 and 4.
    expect(mean?.spread).toBeCloseTo(Math.sqrt(32 / 3), 9);
  });
});

describe("a sighting", () => {
  it("by compass is magnetic, and counts the hand that shook and what the phone says of itself", () => {
    expect(byCompass({ bearing: 359.97, spread: 0, accuracy: null }, 2)).toEqual({
      way: "compass",
      bearing: 0,
      north: "magnetic",
      uncertainty: 2,
    });
    // 12° at most, evenly spread: 6.9° standard.
    expect(byCompass({ bearing: 10, spread: 3, accuracy: 12 }, 2).uncertainty).toBeCloseTo(
      Math.hypot(2, 3, 12 / Math.sqrt(3)),
      1,
    );
  });
  it("on the map goes from the post to the finger, surer from afar; on the post itself it is none", () => {
    const at = (bearing: number, distance: number): GeoPoint => groundDirect(HOME, bearing, distance, 600);
    const near = byMap(oak, at(123.4, 40), 0.5, 2);
    expect(near).toMatchObject({ way: "map", bearing: 123.4, north: "true" });
    // 10 pixels of half a metre, and 2 m of the map.
    const aside = Math.hypot(5, 2);
    expect(near?.uncertainty).toBeCloseTo(Math.hypot(2, (Math.atan2(aside, 40) * 180) / Math.PI), 1);
    expect(byMap(oak, at(123.4, 400), 0.5, 2)?.uncertainty).toBeLessThan(2.2);
    expect(byMap(oak, at(90, 1), 0.5, 2)).toBeNull();
  });
  it("is sent as the contract takes it, seen or not", () => {
    const shot = { id: "shot", round: 2, entrantNumber: 5, entrantName: "Gourd" } as JudgeShot;
    const now = new Date("2031-10-04T12:00:00Z");
    const seen = sightingFor("fair", shot, oak, byDial(360, "magnetic", 5), "badge", now);
    expect(sightingRequest.parse(seen.body)).toEqual({
      from: "oak",
      bearing: 0,
      north: "magnetic",
      uncertainty: 5,
      way: "dial",
      observedAt: "2031-10-04T12:00:00.000Z",
    });
    expect(seen).toMatchObject({ title: "Round 2, 5 Gourd", result: "000° from Oak", tried: false });
    const nothing = sightingFor("fair", shot, oak, null, "badge", now);
    expect(sightingRequest.parse(nothing.body).bearing).toBeNull();
    expect(nothing.key).not.toBe(seen.key);
  });
});

describe("the shot that a post sees next", () => {
  const shots = ["a", "b", "c", "d"].map((id) => ({ id, fix: null as never }));
  const next = (entered: string, done: string) =>
    likelyShot(
      shots.map((shot) => ({ ...shot, fix: entered.includes(shot.id) ? ({} as never) : null })),
      ({ id }) => done.includes(id),
    )?.id;
  it("follows the last that it has seen, though no judge has entered it", () => {
    expect(next("", "")).toBe("a");
    expect(next("", "a")).toBe("b");
    expect(next("a", "")).toBe("b");
    // It missed one, and is not sent back to it while others come.
    expect(next("a", "c")).toBe("d");
    expect(next("a", "cd")).toBe("b");
    expect(next("abd", "c")).toBeUndefined();
  });
});

describe("the spotters' bearings in the judge's form", () => {
  const sighting = (from: string, bearing: number | null, north = "true") => ({
    from,
    bearing,
    north,
    uncertainty: 5,
  });
  const values = (...sightings: object[]) =>
    sightedValues({ sightings } as unknown as JudgeShot, { pegs: [oak, { ...oak, id: "elm" }] }, "metric");
  it("are filled in from two posts that the form knows and that saw something", () => {
    expect(values(sighting("oak", 135, "magnetic"), sighting("elm", 180))?.bearings).toMatchObject([
      { from: "oak", bearing: { text: "135", value: 135 }, north: "magnetic", uncertainty: { value: 5 } },
      { from: "elm", bearing: { value: 180 }, north: "true" },
    ]);
    expect(values(sighting("oak", 135), sighting("elm", null))).toBeNull();
    expect(values(sighting("oak", 135), sighting("retired", 180))).toBeNull();
  });
});

describe("the way there", () => {
  it("counts both accuracies, and says when the place may be here", () => {
    // 3 m by 4 m, standard, along the axes.
    const covariance: [number, number, number] = [9, 0, 16];
    const point = { point: HOME, covariance };
    const from = groundDirect(HOME, 270, 50, 600);
    const known = wayThere(from, 0, point, 600);
    expect(known.distance).toBeCloseTo(50, 3);
    expect(known.bearing).toBeCloseTo(90, 2);
    // k = 2 along the way, which is east.
    expect(known.uncertainty).toBeCloseTo(6, 3);
    expect(known.here).toBe(false);
    // A circle of 2.448 standard uncertainties holds 95 %: 4 m each along an axis.
    expect(wayThere(from, 4 * 2.4477, point, 600).uncertainty).toBeCloseTo(10, 2);
    // The ellipse reaches 2.448 · 3 m = 7.34 m to the west; with the phone's 4 m it is 2.448 · 5 m = 12.24 m.
    const near = (metres: number, accuracy: number) =>
      wayThere(groundDirect(HOME, 270, metres, 600), accuracy, point, 600).here;
    expect([near(7.3, 0), near(7.4, 0)]).toEqual([true, false]);
    expect([near(12.2, 4 * 2.4477), near(12.3, 4 * 2.4477)]).toEqual([true, false]);
  });
  it("has an ellipse whose longer axis lies where the spread is largest", () => {
    expect(ellipseOf([9, 0, 16])).toMatchObject({ bearing: 0 });
    expect(ellipseOf([9, 0, 16]).major).toBeCloseTo(4 * 2.4477, 3);
    expect(ellipseOf([16, 0, 9])).toMatchObject({ bearing: 90 });
    const { major, minor, bearing } = ellipseOf([12.5, -3.5, 12.5]);
    expect(bearing).toBeCloseTo(135, 9);
    expect([major, minor]).toEqual([expect.closeTo(4 * 2.4477, 3), expect.closeTo(3 * 2.4477, 3)]);
  });
});
