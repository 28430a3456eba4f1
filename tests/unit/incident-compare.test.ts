/** A piece of an incident against what a hazard sheet foresaw: what counts as outside, and what as beyond the model. */
import { describe, expect, test } from "vitest";
import { comparePiece, factorFor, type Scene } from "@/lib/contest/incidents/compare";
import type { Fix } from "@/lib/survey";

const fault = (reach: number, rest: number, allRound = false) => ({
  reach: { forward: reach, backward: reach / 2, side: 10 },
  rest: { forward: rest, backward: rest / 2, side: 12 },
  allRound,
});
const sheet = (faults: object[]) =>
  ({
    worst: { forward: { distance: 100 }, backward: { distance: 40 } },
    exclusion: { reach: Array(360).fill(130) },
    faults,
  }) as unknown as NonNullable<Scene["sheet"]>;
const scene = (faults = [fault(60, 80)]): Scene => ({
  place: { latitude: 48.1, longitude: 11.5, height: 500, accuracy: 0, bearing: 40 },
  sheet: sheet(faults),
  pegs: {},
  declination: 0,
});
/** Taped from the firing point, so that it is known to centimetres along and to a tenth of a degree across. */
const taped = (distance: number, azimuth = 0): Fix => ({
  outcome: "landed",
  method: "bearing-distance",
  north: "true",
  bearing: 40 + azimuth,
  distance,
  distanceUncertainty: 0.05,
  bearingUncertainty: 0.02,
});
const compared = (
  found: "projectile" | "piece" | "machine" | "unknown",
  place: "impact" | "rest",
  fix = taped(50),
) => comparePiece({ found, place }, fix, scene());

describe("what the sheet foresaw", () => {
  test.each([
    ["projectile", "impact", 0, 100],
    ["piece", "impact", 180, 40],
    ["machine", "impact", 0, 60],
    ["machine", "rest", 0, 80],
    ["machine", "rest", 180, 40],
    ["unknown", "impact", 0, 100],
    // How far a thrown projectile rolls on stands in no sheet.
    ["projectile", "rest", 0, null],
    ["unknown", "rest", 0, null],
  ] as const)("of %s, %s, at %i degrees: %s", (found, place, azimuth, foreseen) => {
    expect(compared(found, place, taped(20, azimuth)).foreseen).toBe(foreseen);
  });

  test("goes all round where pieces do", () => {
    const { foreseen } = comparePiece(
      { found: "machine", place: "rest" },
      taped(20, 180),
      scene([fault(60, 80, true)]),
    );
    expect(foreseen).toBe(80);
  });

  test("is passed inside the zone too: the machine is beyond its model before it is beyond its margin", () => {
    const inside = compared("machine", "rest", taped(90));
    expect([inside.outside, inside.beyondModel]).toEqual([false, true]);
    const meant = compared("machine", "rest", taped(79));
    expect([meant.outside, meant.beyondModel]).toEqual([false, false]);
    const out = compared("projectile", "rest", taped(140));
    expect([out.outside, out.beyondModel]).toEqual([true, true]);
  });
});

test("what cannot be told counts as outside", () => {
  const bare = comparePiece({ found: "piece", place: "rest" }, taped(5), { ...scene(), sheet: null });
  expect(bare).toMatchObject({ zone: null, outside: true, beyondModel: false });
  expect(bare.latitude).not.toBeNull();
  // Taped from pegs that the site does not have.
  const nowhere = compared("piece", "rest", {
    outcome: "landed",
    method: "two-tapes",
    tapes: [
      { from: "gone", distance: 10 },
      { from: "lost", distance: 12 },
    ],
    side: "left",
  } as unknown as Fix);
  expect(nowhere).toMatchObject({ latitude: null, zone: null, outside: true });
  expect(nowhere.warnings).toHaveLength(1);
});

test("the zone it would take is that of the piece that needs most, and none where one needs more than can be drawn", () => {
  const [near, far] = [compared("piece", "rest"), compared("piece", "rest", taped(195))];
  expect(factorFor([near])).toBe(1);
  expect(factorFor([near, far])).toBeCloseTo((195 + (far.uncertainty ?? 0)) / 130, 2);
  expect(factorFor([far, compared("piece", "rest", taped(9_000_000))])).toBeNull();
  expect(factorFor([])).toBe(1);
});
