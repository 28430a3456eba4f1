import { describe, expect, it } from "vitest";
import { groundDirect } from "@/lib/earth";
import {
  conflicts,
  type MachineToPlace,
  type PlacePoint,
  place,
  reachPolygon,
  type ZoneFeature,
} from "@/lib/zones";
import { cheapest, shortage } from "@/lib/zones/hall";

const ORIGIN = { latitude: 48, longitude: 9 };
const at = (azimuth: number, distance: number) => ({
  ...groundDirect(ORIGIN, azimuth, distance, 0),
  height: 0,
});
const position = (azimuth: number, distance: number): [number, number] => {
  const { longitude, latitude } = at(azimuth, distance);
  return [longitude, latitude];
};
/** A firing line from west to east, 60 m apart. */
const points: PlacePoint[] = [1, 2, 3, 4].map((number) => ({
  id: `point ${number}`,
  ...at(90, 60 * number),
}));
const reach = (ahead: number) =>
  Array.from({ length: 360 }, (_, degree) => (degree <= 10 || degree >= 350 ? ahead : 15));
const machine = (
  id: string,
  ahead: number,
  point: number | null,
  bearing = 0,
  pinned = false,
): MachineToPlace => ({
  id,
  reach: reach(ahead),
  wished: { pointId: point === null ? null : `point ${point}`, bearing },
  pinned,
});
/** Houses all along the north, 200 m away: only what throws less far can aim there. */
const houses: ZoneFeature = {
  id: "houses",
  kind: "building",
  standOff: 5,
  geometry: {
    type: "Polygon",
    coordinates: [
      [position(300, 400), position(30, 230), position(60, 460), position(5, 600), position(300, 400)],
    ],
  },
};
/** A crowd round the first two points, so near that only short throws fit. */
const crowd: ZoneFeature = {
  id: "crowd",
  kind: "spectators",
  geometry: {
    type: "LineString",
    coordinates: [position(90, 40), position(90, 130)].map(([x, y]) => [x, y - 0.0012]),
  },
};

describe("placing machines", () => {
  const features = [houses, crowd];

  it("leaves everything where it is when that is clear", () => {
    const machines = [machine("a", 60, 1), machine("b", 60, 2), machine("c", 60, 3)];
    const { placements } = place(machines, points, []);
    expect(placements).toEqual(
      machines.map(({ id, wished }) => ({ machineId: id, pointId: wished?.pointId, bearing: 0 })),
    );
  });

  it("gives each a firing point of its own and a clear bearing, the nearest to the wished one", () => {
    const machines = [
      machine("far", 400, 1),
      machine("b", 100, 1),
      machine("c", 100, null),
      machine("d", 100, 3),
    ];
    const { placements } = place(machines, points, features);
    if (!placements) throw new Error("There is room for all.");
    expect(new Set(placements.map(({ pointId }) => pointId)).size).toBe(4);
    for (const { machineId, pointId, bearing } of placements) {
      const point = points.find(({ id }) => id === pointId) as PlacePoint;
      const radii = machines.find(({ id }) => id === machineId)?.reach as number[];
      expect(
        conflicts(reachPolygon(point, bearing, radii), features).filter(({ inConflict }) => inConflict),
      ).toEqual([]);
    }
    // What need not turn does not.
    expect(placements.filter(({ bearing }) => bearing === 0).length).toBe(3);
  });

  it("leaves a pinned machine, and says when its own place is not clear", () => {
    const pinned = machine("pinned", 60, 2, 123.4, true);
    const found = place([machine("a", 60, 2), pinned], points, []);
    expect(found.placements?.[1]).toEqual({ machineId: "pinned", pointId: "point 2", bearing: 123.4 });
    expect(found.placements?.[0]?.pointId).not.toBe("point 2");
    const { impossible } = place(
      [machine("a", 60, 1), machine("into the houses", 400, 2, 0, true)],
      points,
      features,
    );
    expect(impossible).toMatchObject({ machineIds: ["into the houses"], pointIds: [] });
    expect(impossible?.why.find(({ pointId }) => pointId === "point 2")).toMatchObject({ clear: false });
    expect(impossible?.why.find(({ pointId }) => pointId === "point 2")?.by).toContain("houses");
  });

  it("names the smallest set that cannot be placed, its points and what is in the way", () => {
    const wall: ZoneFeature = {
      id: "wall",
      kind: "spectators",
      geometry: { type: "LineString", coordinates: [position(90, 150), position(90, 300)] },
    };
    // Points 3 and 4 stand among spectators; two of the three that are left have point 1 and 2, the third nothing.
    const { impossible } = place([machine("a", 60, 1), machine("b", 60, 2), machine("c", 60, 3)], points, [
      wall,
    ]);
    expect(impossible?.machineIds).toEqual(["a", "b", "c"]);
    expect(impossible?.pointIds).toEqual(["point 1", "point 2"]);
    expect(impossible?.why.find(({ pointId }) => pointId === "point 3")).toMatchObject({
      clear: false,
      by: ["wall"],
    });
  });
});

describe("shortages and cheapest assignments", () => {
  /** Numbers from 0 up to n, the same every time. */
  const dice = (seed: number) => {
    let state = seed;
    return (n: number) => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return Math.floor((state / 2 ** 32) * n);
    };
  };

  it("agree with trying everything, on 300 small cases", () => {
    const roll = dice(7);
    for (let round = 0; round < 300; round++) {
      const machines = 1 + roll(6);
      const columns = 1 + roll(6);
      const choices = Array.from({ length: machines }, () =>
        [...Array(columns).keys()].filter(() => roll(3) === 0),
      );
      const subsets = Array.from({ length: 2 ** machines - 1 }, (_, bits) =>
        [...Array(machines).keys()].filter((machine) => ((bits + 1) >> machine) & 1),
      );
      const short = subsets.filter(
        (set) => new Set(set.flatMap((machine) => choices[machine])).size < set.length,
      );
      const found = shortage(choices);
      if (short.length === 0) expect(found).toBeNull();
      else {
        expect(found?.length).toBe(Math.min(...short.map((set) => set.length)));
        expect(short).toContainEqual(found);
      }
    }
  });

  it("cost the least that any assignment does", () => {
    const roll = dice(11);
    for (let round = 0; round < 100; round++) {
      const rows = 1 + roll(5);
      const columns = rows + roll(2);
      const costs = Array.from({ length: rows }, () =>
        Array.from({ length: columns }, () => (roll(5) === 0 ? Number.POSITIVE_INFINITY : roll(100))),
      );
      const best = (row: number, used: number[]): number =>
        row === rows
          ? 0
          : Math.min(
              ...costs[row].map((cost, column) =>
                used.includes(column) ? Number.POSITIVE_INFINITY : cost + best(row + 1, [...used, column]),
              ),
            );
      const least = best(0, []);
      if (least === Number.POSITIVE_INFINITY) continue;
      const chosen = cheapest(costs);
      expect(new Set(chosen).size).toBe(rows);
      expect(chosen.reduce((sum, column, row) => sum + costs[row][column], 0)).toBe(least);
    }
  });
});
