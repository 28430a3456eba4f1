/** What organisers and judges type for places: positions as people copy them, and the shapes of site features. */
import { describe, expect, it } from "vitest";
import { positionText, readPosition } from "@/app/_ui/position";
import { readGeometry } from "@/app/_ui/site-editor/geometry-text";

const at = (text: string) => {
  const read = readPosition(text);
  if (!read.ok) throw new Error(`${text}: ${read.message}`);
  return [read.position.latitude, read.position.longitude];
};

describe("a position", () => {
  it.each([
    ["44.2, -31.6", 44.2, -31.6],
    ["44.2 -31.6", 44.2, -31.6],
    ["  +44.2,−31.6 ", 44.2, -31.6],
    ["44,2; -31,6", 44.2, -31.6],
    ["44.2N, 31.6W", 44.2, -31.6],
    ["31.6 W 44.2 N", 44.2, -31.6],
    ["S 44.5 E 31.25", -44.5, 31.25],
    ["44,2N, 31,6W", 44.2, -31.6],
    // 12′ = 0.2°, 36′ = 0.6°; 30″ is half a minute.
    ["44°12'N 31°36'W", 44.2, -31.6],
    ["44°12'30\"N, 31°36'30\"W", 44 + 12.5 / 60, -(31 + 36.5 / 60)],
    ["44 12 30 N 31 36 30 W", 44 + 12.5 / 60, -(31 + 36.5 / 60)],
    ["0°0'36\"S, 0°0'36\"W", -0.01, -0.01],
  ])("reads %s", (text, latitude, longitude) => {
    const [north, east] = at(text);
    expect(north).toBeCloseTo(latitude, 10);
    expect(east).toBeCloseTo(longitude, 10);
  });

  it.each([
    ["44.2", /give latitude and longitude/],
    ["44,2, -31,6", /give latitude and longitude/],
    ["144.2, 31.6", /latitude lies between/],
    ["86.2, 31.6", /drawn between −84.9 and 84.9/],
    ["44.2, 231.6", /longitude lies between/],
    ["44°72'N 31°36'W", /give latitude and longitude/],
    ["44N 31N", /two of the same kind/],
    ["-44N 31W", /give latitude and longitude/],
    ["here", /give latitude and longitude/],
    ["0, 0", /0°, 0° lies in the sea .* Enter the place itself/],
    ["0°0'1\"N 0°0'1\"W", /0°, 0° lies in the sea/],
  ])("refuses %s with what to do", (text, message) => {
    const read = readPosition(text);
    expect(read.ok).toBe(false);
    expect(!read.ok && read.message).toMatch(message);
  });

  it("is written so that reading it back gives the same place", () => {
    const place = { latitude: -44.1234567, longitude: 31.7654321 };
    expect(at(positionText(place))).toEqual([place.latitude, place.longitude]);
  });
});

describe("a shape", () => {
  const corners = "44.2, -31.6\n44.3, -31.6\n44.3, -31.5";

  it("is closed when it is an area, and not closed twice", () => {
    const ring = [
      [-31.6, 44.2],
      [-31.6, 44.3],
      [-31.5, 44.3],
      [-31.6, 44.2],
    ];
    const area = { ok: true, geometry: { type: "Polygon", coordinates: [ring] } };
    expect(readGeometry(corners, "area")).toEqual(area);
    expect(readGeometry(`${corners}\n44.2, -31.6\n`, "area")).toEqual(area);
  });

  it("may be a line or a point", () => {
    expect(readGeometry("44.2, -31.6\n44.3, -31.6", "line")).toMatchObject({
      geometry: { type: "LineString" },
    });
    expect(readGeometry("44.2, -31.6", "point")).toMatchObject({
      geometry: { type: "Point", coordinates: [-31.6, 44.2] },
    });
  });

  it("may be pasted GeoJSON (RFC 7946): a geometry, a feature or a collection of one, heights dropped", () => {
    const geometry = {
      type: "LineString",
      coordinates: [
        [-31.6, 44.2, 12],
        [-31.5, 44.3, 13],
      ],
    };
    const feature = { type: "Feature", properties: { name: "Lane" }, geometry };
    const flat = { type: "LineString", coordinates: geometry.coordinates.map((place) => place.slice(0, 2)) };
    for (const pasted of [geometry, feature, { type: "FeatureCollection", features: [feature] }]) {
      expect(readGeometry(JSON.stringify(pasted), "area")).toEqual({ ok: true, geometry: flat });
    }
  });

  it.each([
    ["", "area", /points, one a line/],
    ["44.2, -31.6\nby the oak", "line", /line 2, “by the oak”/],
    ["44.2, -31.6\n44.3, -31.6", "area", /at least three corners/],
    ["44.2, -31.6", "line", /at least two points/],
    ["44.2, -31.6\n44.3, -31.6", "point", /one line/],
    ['{"type":"LineString"', "area", /cut off or mistyped/],
    ['{"type":"FeatureCollection","features":[1,2]}', "area", /holds 2 features/],
    [
      '{"type":"Polygon","coordinates":[[[-31.6,44.2],[-31.6,44.3],[-31.5,44.3],[-31.5,44.2]]]}',
      "area",
      /Close the ring/,
    ],
  ] as const)("refuses %s as %s, naming the field", (text, shape, message) => {
    const read = readGeometry(text, shape);
    expect(read.ok).toBe(false);
    expect(!read.ok && read.message).toMatch(message);
    expect(!read.ok && read.message).toMatch(/^Shape: /);
  });
});
