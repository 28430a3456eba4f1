/** Walking the zones: in which, how deep, which way out, and the position's accuracy counted against who walks. */
import type { Polygon } from "geojson";
import { describe, expect, test } from "vitest";
import { direct, type GeoPoint, inverse, localPlane } from "@/lib/earth";
import { reachPolygon, walkGround, walkState } from "@/lib/zones";

const MIDDLE = { latitude: 44.2, longitude: -31.6 };
const plane = localPlane(MIDDLE);
/** A point so many metres east and north of the middle. */
const at = (east: number, north: number): GeoPoint => plane.toPoint({ east, north });
const box = (west: number, south: number, east: number, north: number): Polygon => ({
  type: "Polygon",
  coordinates: [
    [at(west, south), at(east, south), at(east, north), at(west, north), at(west, south)].map(
      ({ latitude, longitude }) => [longitude, latitude],
    ),
  ],
});
const ground = (...boxes: Polygon[]) =>
  walkGround(
    boxes.map((geometry, index) => ({ id: `zone ${index + 1}`, geometry })),
    MIDDLE,
  );
const stand = (zones: Polygon[], east: number, north: number, accuracy = 0) =>
  walkState(ground(...zones), { ...at(east, north), accuracy });

describe("one zone, 200 m square", () => {
  const zone = [box(-100, -100, 100, 100)];

  test("inside: how deep, and the nearest way out", () => {
    const state = stand(zone, 70, 10);
    expect(state).toMatchObject({ where: "inside", zones: [{ id: "zone 1" }] });
    if (state.where !== "inside") throw new Error();
    expect(state.zones[0]?.depth).toBeCloseTo(30, 2);
    expect(state.out.distance).toBeCloseTo(30, 2);
    expect(state.out.bearing).toBeCloseTo(90, 1);
  });

  test("outside: how far off, and where the zone lies", () => {
    const state = stand(zone, 0, 150);
    if (state.where !== "outside") throw new Error();
    expect(state.nearest).toMatchObject({ id: "zone 1" });
    expect(state.nearest.distance).toBeCloseTo(50, 2);
    expect(state.nearest.bearing).toBeCloseTo(180, 1);
  });

  test("accuracy makes it deeper, the zone nearer, and who may be inside is inside", () => {
    const deeper = stand(zone, 70, 10, 8);
    expect(deeper).toMatchObject({
      zones: [{ depth: expect.closeTo(38, 2) }],
      out: { distance: expect.closeTo(38, 2) },
    });
    const nearer = stand(zone, 0, 150, 8);
    expect(nearer).toMatchObject({ where: "outside", nearest: { distance: expect.closeTo(42, 2) } });
    const perhaps = stand(zone, 0, -105, 8);
    expect(perhaps).toMatchObject({
      where: "inside",
      zones: [{ depth: expect.closeTo(3, 2) }],
      out: { distance: expect.closeTo(3, 2), bearing: expect.closeTo(180, 1) },
    });
  });

  test("on the edge itself the way leads out, square to it", () => {
    expect(stand(zone, -100, 20, 5)).toMatchObject({
      where: "inside",
      out: { distance: expect.closeTo(5, 2), bearing: expect.closeTo(270, 1) },
    });
  });
});

test("in two zones the way leads out of both, not into the other", () => {
  // 10 m from the edge of the first, but that edge lies in the second.
  const state = stand([box(-100, -100, 100, 100), box(60, -100, 300, 100)], 90, 0);
  if (state.where !== "inside") throw new Error();
  expect(state.zones.map(({ id }) => id)).toEqual(["zone 2", "zone 1"]);
  expect(state.zones[1]?.depth).toBeCloseTo(10, 2);
  expect(state.out.distance).toBeCloseTo(100, 2);
});

test("a place that zones enclose is no way out", () => {
  const frame = [
    box(-100, -100, 100, -50),
    box(-100, 50, 100, 100),
    box(-100, -100, -50, 100),
    box(50, -100, 100, 100),
  ];
  expect(stand(frame, 60, 0)).toMatchObject({
    where: "inside",
    out: { distance: expect.closeTo(40, 2), bearing: expect.closeTo(90, 1) },
  });
  expect(stand(frame, 20, 0, 5)).toMatchObject({
    where: "enclosed",
    out: { distance: expect.closeTo(85, 2), bearing: expect.closeTo(90, 1) },
  });
  expect(stand(frame.slice(1), 20, 0, 5)).toMatchObject({ where: "outside" });
});

test("without zones there is nothing to say", () => {
  expect(stand([], 0, 0)).toEqual({ where: "nowhere" });
});

test("a real zone's edge is found to the centimetre, all round", () => {
  const reach = Array.from({ length: 360 }, (_, degree) => 120 + 60 * Math.cos((degree * Math.PI) / 180));
  const walked = walkGround([{ id: "zone", geometry: reachPolygon(MIDDLE, 30, reach) }], MIDDLE);
  for (let degree = 0; degree < 360; degree += 15) {
    const inside = direct(MIDDLE, 30 + degree, (reach[degree] as number) - 5);
    const state = walkState(walked, { ...inside, accuracy: 0 });
    if (state.where !== "inside") throw new Error();
    // No farther than straight on, where the larger reach of two degrees holds; and the way really leads out.
    expect(state.out.distance).toBeLessThan(6.1);
    const out = direct(inside, state.out.bearing, state.out.distance + 0.02);
    expect(walkState(walked, { ...out, accuracy: 0 }).where).toBe("outside");
    expect(inverse(inside, out).distance).toBeCloseTo(state.out.distance + 0.02, 2);
  }
});
