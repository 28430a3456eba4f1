/** Drawing on the map: the actions, their undoing, what is saved, and catching what is there. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  beginDrawing,
  type Corner,
  cornersOf,
  type DrawAction,
  type Drawing,
  draw,
  drawnOf,
  geometryOf,
  nothingDrawn,
  type Shape,
} from "@/app/_ui/map/edit/model";
import { joined, snap, targetsOf } from "@/app/_ui/map/edit/snap";

const c = (latitude: number, longitude: number): Corner => ({ latitude, longitude });
const SQUARE = [c(0, 0), c(0, 1), c(1, 1), c(1, 0)];

const made = (drawing: Drawing, ...actions: DrawAction[]) => actions.reduce(draw, drawing);
const area = (corners: readonly Corner[] = SQUARE) => beginDrawing({ shape: "area", rings: [corners] }, true);

describe("actions", () => {
  test("corners are added, inserted, moved, shifted and taken away", () => {
    const drawing = made(
      beginDrawing(nothingDrawn("area"), true),
      { do: "add", at: c(0, 0) },
      { do: "add", at: c(2, 2) },
      { do: "insert", index: 1, at: c(1, 1) },
      { do: "place", index: 2, at: c(3, 3) },
      { do: "shift", index: 0, by: 1 },
    );
    expect(cornersOf(drawing)).toEqual([c(1, 1), c(0, 0), c(3, 3)]);
    expect(drawing.picked).toBe(1);
    expect(cornersOf(draw(drawing, { do: "remove", index: 1 }))).toEqual([c(1, 1), c(3, 3)]);
  });

  test("a point has one place: adding moves it", () => {
    const drawing = made(
      beginDrawing(nothingDrawn("point"), true),
      { do: "add", at: c(1, 1) },
      { do: "add", at: c(2, 2) },
    );
    expect(cornersOf(drawing)).toEqual([c(2, 2)]);
    expect(cornersOf(draw(drawing, { do: "undo" }))).toEqual([c(1, 1)]);
  });

  test.each<DrawAction>([
    { do: "place", index: 9, at: c(5, 5) },
    { do: "place", index: 1, at: c(0, 1) },
    { do: "remove", index: 9 },
    { do: "shift", index: 0, by: -1 },
    { do: "add", at: c(1, 0) },
    { do: "shape", shape: "area" },
    { do: "undo" },
    { do: "redo" },
  ])("what cannot be done or changes nothing leaves no step to undo: %j", (action) => {
    expect(draw(area(), action)).toEqual(area());
  });

  test("another ring is worked on by itself", () => {
    const hole = [c(0.2, 0.2), c(0.4, 0.2), c(0.4, 0.4)];
    const drawing = made(
      beginDrawing({ shape: "area", rings: [SQUARE, hole] }, false),
      { do: "ring", ring: 1 },
      { do: "place", index: 0, at: c(0.3, 0.3) },
    );
    expect(drawing.now.rings).toEqual([SQUARE, hole.with(0, c(0.3, 0.3))]);
  });
});

const corner = fc.record({
  latitude: fc.integer({ min: -5, max: 5 }),
  longitude: fc.integer({ min: -5, max: 5 }),
});
const index = fc.integer({ min: -1, max: 6 });
const anyAction: fc.Arbitrary<DrawAction> = fc.oneof(
  fc.record({ do: fc.constant("add" as const), at: corner }),
  fc.record({ do: fc.constant("insert" as const), index: fc.integer({ min: 0, max: 6 }), at: corner }),
  fc.record({ do: fc.constant("place" as const), index: fc.integer({ min: 0, max: 6 }), at: corner }),
  fc.record({ do: fc.constant("remove" as const), index: fc.integer({ min: 0, max: 6 }) }),
  fc.record({ do: fc.constant("shift" as const), index, by: fc.constantFrom(1 as const, -1 as const) }),
  fc.record({ do: fc.constant("shape" as const), shape: fc.constantFrom<Shape[]>("point", "line", "area") }),
);

test("undoing everything gives the beginning, redoing everything the end", () => {
  fc.assert(
    fc.property(fc.array(anyAction, { maxLength: 40 }), (actions) => {
      const begun = area();
      const end = made(begun, ...actions);
      const steps = end.past.length;
      const undone = made(end, ...Array.from({ length: steps }, (): DrawAction => ({ do: "undo" })));
      expect(undone.now).toEqual(begun.now);
      const redone = made(undone, ...Array.from({ length: steps }, (): DrawAction => ({ do: "redo" })));
      expect(redone.now).toEqual(end.now);
    }),
  );
});

describe("what is saved", () => {
  test("an outline is closed, turned the right way, and comes back as it was drawn", () => {
    const saved = geometryOf({ shape: "area", rings: [[...SQUARE].reverse()] });
    expect(saved).toEqual({
      ok: true,
      geometry: {
        type: "Polygon",
        coordinates: [
          [
            [0, 1],
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 1],
          ].map(([a, b]) => [a, b]),
        ],
      },
    });
    if (saved.ok) expect(geometryOf(drawnOf(saved.geometry))).toEqual(saved);
  });

  test.each<[Shape, Corner[], RegExp]>([
    ["point", [], /Place it/],
    ["line", [c(0, 0)], /two points/],
    ["line", [c(0, 0), c(0, 0)], /2 different points/],
    ["area", SQUARE.slice(0, 2), /three corners/],
    ["area", [c(0, 0), c(1, 1), c(0, 1), c(1, 0)], /crosses or touches itself at corner/],
  ])("a %s that lacks something is told in a sentence", (shape, corners, words) => {
    const saved = geometryOf({ shape, rings: [corners] });
    expect(saved.ok ? "" : saved.message).toMatch(words);
  });
});

describe("catching", () => {
  const project = ({ latitude, longitude }: Corner) => ({ x: longitude * 100, y: -latitude * 100 });
  const targets = joined([
    targetsOf(
      {
        type: "LineString",
        coordinates: [
          [0, 0],
          [1, 0],
          [1, 1],
        ],
      },
      "Lane",
    ),
    targetsOf({ type: "Point", coordinates: [0.5, 0.05] }, "Oak"),
  ]);

  test("a corner goes before an edge that is nearer", () => {
    expect(snap(c(0.01, 0.93), targets, project, 16)).toEqual({
      at: c(0, 1),
      kind: "corner",
      of: "a corner of Lane",
    });
    expect(snap(c(0.01, 0.5), targets, project, 16)).toMatchObject({ kind: "corner", of: "Oak" });
  });

  test("on an edge the nearest place of it is taken", () => {
    expect(snap(c(0.08, 0.25), targets, project, 16)).toEqual({
      at: c(0, 0.25),
      kind: "edge",
      of: "an edge of Lane",
    });
  });

  test("beyond its reach nothing is caught", () => {
    expect(snap(c(0.17, 0.25), targets, project, 16)).toBeNull();
    expect(snap(c(0.5, 0.5), targets, project, 16)).toBeNull();
  });
});
