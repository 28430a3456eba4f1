/** Pegs to set out, against figures whose corners, bearings and distances are known. */
import { expect, it } from "vitest";
import { localPlane } from "@/lib/earth";
import { pegsCsv, pegsOf } from "@/lib/exchange";

const MIDDLE = { latitude: 44.2, longitude: -31.6 };
const plane = localPlane(MIDDLE, 60);
const at = (east: number, north: number): [number, number] => {
  const { latitude, longitude } = plane.toPoint({ east, north });
  return [longitude, latitude];
};
const zone = (...corners: [number, number][]) => ({
  name: "Zone",
  geometry: {
    coordinates: [[...corners, corners[0] as [number, number]].map(([east, north]) => at(east, north))],
  },
});
const listed = (zones: ReturnType<typeof zone>[], every: number) =>
  pegsOf({ controlPoints: [], firingPoints: [], zones }, { every, from: MIDDLE, height: 60 });
const onPlane = (pegs: { latitude: number; longitude: number }[]) =>
  pegs.map((peg) => {
    const { east, north } = plane.toPlane(peg);
    return [Math.round(east * 100) / 100 + 0, Math.round(north * 100) / 100 + 0];
  });

it("a square of 100 m gets its corners, and pegs between them no farther apart than asked", () => {
  const square = zone([0, 0], [100, 0], [100, 100], [0, 100]);
  expect(onPlane(listed([square], 500).pegs)).toEqual([
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ]);
  const { pegs, cutsIn } = listed([square], 30);
  expect(pegs).toHaveLength(16);
  expect(onPlane(pegs.slice(0, 3))).toEqual([
    [0, 0],
    [25, 0],
    [50, 0],
  ]);
  expect(cutsIn).toBeLessThan(0.001);
});

it("says how far a rope between pegs cuts into a circle", () => {
  const radius = 200;
  const circle = zone(
    ...Array.from({ length: 720 }, (_, index): [number, number] => [
      radius * Math.cos((index * Math.PI) / 360),
      radius * Math.sin((index * Math.PI) / 360),
    ]),
  );
  for (const every of [5, 25, 100]) {
    const { pegs, cutsIn } = listed([circle], every);
    const places = onPlane(pegs) as [number, number][];
    // The sagitta of each chord, by its own length.
    const sagittas = places.map(([x, y], index) => {
      const [nextX, nextY] = places[(index + 1) % places.length] as [number, number];
      const chord = Math.hypot(nextX - x, nextY - y);
      expect(chord).toBeLessThanOrEqual(every + 0.01);
      return radius - Math.sqrt(radius ** 2 - chord ** 2 / 4);
    });
    expect(cutsIn).toBeGreaterThan(Math.max(...sagittas) - 0.03);
    expect(cutsIn).toBeLessThan(Math.max(...sagittas) + 0.03);
  }
});

it("measures bearings and distances on the ground from the chosen point, also across the antimeridian", () => {
  const from = { latitude: 0, longitude: 179.9999 };
  const controlPoints = [{ name: "=East", latitude: 0, longitude: -179.9999 }];
  const outline = [
    [179.9999, 0],
    [180.0001, 0],
    [180.0001, 0.0002],
    [179.9999, 0],
  ];
  const list = pegsOf(
    { controlPoints, firingPoints: [], zones: [{ name: "Z", geometry: { coordinates: [outline] } }] },
    { every: 100, from, height: 0 },
  );
  // 0.0002° of the equator: 6378137 m × 2π / 360.
  expect(list.pegs[0]).toMatchObject({ bearing: 90 });
  expect(list.pegs[0]?.distance).toBeCloseTo((6378137 * 2 * Math.PI * 0.0002) / 360, 6);
  expect(list.pegs[2]?.longitude).toBeCloseTo(-179.9999, 9);
  const [, first] = pegsCsv(list).split("\r\n");
  expect(first).toBe("'=East,control-point,0,-179.9999,90,22.264");
});
