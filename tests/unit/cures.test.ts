/** The searches for cures on ground where the answer can be said beforehand. */
import { describe, expect, test } from "vitest";
import { strengthOf } from "@/lib/contest/fit";
import { groundInverse, localPlane } from "@/lib/earth";
import { MACHINE_KINDS, machineSchema } from "@/lib/throw";
import {
  broken,
  clearOn,
  cureCost,
  layOut,
  moveAway,
  shiftTo,
  standZone,
  turnsTo,
  type ZoneFeature,
} from "@/lib/zones";

const stand = { latitude: 44.2, longitude: -31.6, height: 50, accuracy: 0 };
const plane = localPlane(stand, stand.height);
const place = (east: number, north: number): [number, number] => {
  const { latitude, longitude } = plane.toPoint({ east, north });
  return [longitude, latitude];
};
const box = (west: number, south: number, east: number, north: number) => ({
  type: "Polygon" as const,
  coordinates: [
    [place(west, south), place(east, south), place(east, north), place(west, north), place(west, south)],
  ],
});
const round = (radius: number) => new Array<number>(360).fill(radius);

/** 55 m to the east of a machine that reaches 50 m all round; 10 m must be kept: 5 m are missing. */
const bank: ZoneFeature = { id: "bank", kind: "spectators", geometry: box(55, -200, 75, 200), standOff: 10 };
const site = layOut([bank], stand, stand.height);

describe("stepping aside", () => {
  test("is as long as what is missing, to half a metre, and clear where it ends", () => {
    const left = shiftTo("left", stand, 0, round(50), clearOn(site));
    expect(left?.distance).toBeGreaterThan(4.99);
    expect(left?.distance).toBeLessThanOrEqual(5.5);
    expect(groundInverse(stand, left?.stand ?? stand, 50).bearing).toBeCloseTo(270, 1);
    expect(broken(site, standZone(left?.stand ?? stand, 0, round(50)))).toEqual([]);
    // Turned to the south, the same way is to the right.
    expect(shiftTo("right", stand, 180, round(50), clearOn(site))?.distance).toBeCloseTo(
      left?.distance ?? 0,
      6,
    );
  });

  test("is not offered where no step is enough", () => {
    expect(shiftTo("ahead", stand, 0, round(50), clearOn(site))).toBeNull();
    expect(shiftTo("right", stand, 0, round(50), clearOn(site))).toBeNull();
  });

  test("looks at everything before it says yes: a second bank on the other side ends it", () => {
    const west: ZoneFeature = { ...bank, id: "west", geometry: box(-80, -200, -63, 200) };
    const narrow = layOut([bank, west], stand, stand.height);
    expect(shiftTo("left", stand, 0, round(50), clearOn(narrow))).toBeNull();
  });
});

test("what is touched is moved straight away, as it is, by what is missing", () => {
  const zone = standZone(stand, 0, round(50));
  const move = moveAway(site, bank, [zone], stand);
  expect(move?.distance).toBeGreaterThan(4.99);
  expect(move?.distance).toBeLessThanOrEqual(5.6);
  const moved = layOut([{ ...bank, geometry: move?.geometry ?? bank.geometry }], stand, stand.height);
  expect(broken(moved, zone)).toEqual([]);
  const corners = (geometry: ZoneFeature["geometry"]) =>
    (geometry.coordinates as [number, number][][])[0].map(([longitude, latitude]) =>
      plane.toPlane({ latitude, longitude }),
    );
  const [before, after] = [corners(bank.geometry), corners(move?.geometry ?? bank.geometry)];
  for (const [index, corner] of before.entries()) {
    const gone = Math.hypot(after[index].east - corner.east, after[index].north - corner.north);
    expect(gone).toBeCloseTo(move?.distance ?? 0, 2);
  }
});

describe("turning", () => {
  const arcs = [
    { from: 100, to: 120 },
    { from: 300, to: 20 },
  ];

  test("goes to the nearest clear bearing either way, the smaller turn first", () => {
    const all = turnsTo(arcs, 90, () => true);
    expect(all).toEqual([
      { bearing: 100, turn: 10 },
      { bearing: 20, turn: -70 },
    ]);
    expect(turnsTo(arcs, 290, () => true)[0]).toEqual({ bearing: 300, turn: 10 });
  });

  test("offers no end of an arc that fails the exact test", () => {
    expect(turnsTo(arcs, 90, (bearing) => bearing > 100.4)[0]).toEqual({ bearing: 100.5, turn: 10.5 });
    expect(turnsTo(arcs, 90, () => false)).toEqual([]);
    expect(turnsTo([], 90, () => true)).toEqual([]);
  });
});

test("a cure's points are what is stated for its kind, whichever way it goes", () => {
  expect(cureCost("turn", -20)).toBeCloseTo(3, 9);
  expect(cureCost("turn", 20)).toBeCloseTo(3, 9);
  expect(cureCost("shift", 10)).toBeCloseTo(6, 9);
});

test.each(MACHINE_KINDS.map((kind) => [kind.kind, kind.example] as const))(
  "%s: it has a strength that can be made less, and nothing else of it changes",
  (_, example) => {
    const machine = machineSchema.parse(example);
    const strength = strengthOf(machine);
    expect(strength.declared).toBeGreaterThan(0);
    expect(machineSchema.parse(strength.with(strength.declared))).toEqual(machine);
    const weaker = machineSchema.parse(strength.with(strength.declared * 0.8)) as Record<string, unknown>;
    const changed = Object.keys(weaker).filter(
      (name) => typeof weaker[name] === "number" && weaker[name] !== (machine as typeof weaker)[name],
    );
    for (const name of changed)
      expect((weaker[name] as number) / (machine as unknown as Record<string, number>)[name]).toBeCloseTo(
        0.8,
        9,
      );
    expect(changed.length).toBeGreaterThan(0);
  },
);
