/** Maps of a site on the antimeridian: everything in one piece, and what is drawn there back within ±180°. */
import { describe, expect, test } from "vitest";
import { actionWithin, beginDrawing, drawingNear } from "@/app/_ui/map/edit/model";
import { snap, targetsNear, targetsOf } from "@/app/_ui/map/edit/snap";
import { pointWithin, sceneNear } from "@/app/_ui/map/near";
import { labelPlace, type MapScene, sceneBounds } from "@/app/_ui/map/scene";
import { reachPolygon } from "@/lib/zones";

const MERIDIAN = 179.9998;
const LATITUDE = -17.3;
const at = (longitude: number) => ({ latitude: LATITUDE, longitude });
const road = {
  type: "LineString" as const,
  coordinates: [
    [179.999, LATITUDE],
    [-179.999, LATITUDE],
  ],
};
const zone = reachPolygon(at(-179.9999), 90, new Array(360).fill(60));

const SCENE: MapScene = {
  meridian: MERIDIAN,
  features: [{ id: "lane", kind: "road", kindTitle: "Road", name: "Lane", geometry: road }],
  firingPoints: [{ id: "one", number: 1, name: "", at: at(-179.9999) }],
  zones: [
    {
      machineId: "sling",
      machine: "Sling",
      entrant: "",
      firingPointId: "one",
      origin: at(-179.9999),
      bearing: 90,
      polygon: zone,
      callouts: [{ which: "forward", distance: 60, at: at(-179.9993) }],
      conflicts: [{ featureId: "lane", touches: true, overlap: road }],
    },
  ],
  day: zone,
  contours: [{ share: 0.5, geometry: zone }],
  marks: [{ id: "peg", what: "control-point", text: "P1", at: at(-179.9995) }],
  pictures: [
    {
      id: "photo",
      name: "Photo",
      url: "",
      width: 1,
      height: 1,
      corners: [at(179.9995), at(-179.9995), at(179.9995)],
      opacity: 1,
      shown: true,
    },
  ],
};

/** Every longitude in it, however deep. */
function longitudes(value: unknown): number[] {
  if (Array.isArray(value))
    return typeof value[0] === "number" ? [value[0]] : value.flatMap((each) => longitudes(each));
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, each]) =>
    name === "longitude" ? [each as number] : longitudes(each),
  );
}

describe("a site on the antimeridian", () => {
  test.each([MERIDIAN, -MERIDIAN])("is drawn in one piece around %d", (meridian) => {
    const near = sceneNear({ ...SCENE, meridian });
    const all = longitudes(near);
    expect(all.length).toBe(longitudes(SCENE).length);
    for (const longitude of all) expect(Math.abs(longitude - meridian)).toBeLessThan(0.01);
    const bounds = sceneBounds(near);
    expect((bounds?.east ?? 360) - (bounds?.west ?? 0)).toBeLessThan(0.01);
    const [lane] = near.features;
    expect(lane && Math.abs((labelPlace(lane.geometry)?.longitude ?? 0) - meridian)).toBeLessThan(0.01);
  });

  test("elsewhere nothing moves", () => {
    const here: MapScene = { ...SCENE, zones: [], day: null, contours: [], meridian: 12, pictures: [] };
    const far = {
      ...here,
      features: [],
      firingPoints: [{ id: "a", number: 1, name: "", at: at(11.1234567) }],
    };
    expect(sceneNear({ ...far, marks: [] }).firingPoints[0]?.at).toEqual(at(11.1234567));
  });

  test("what is drawn on the map is recorded within ±180°, and a caught corner exactly", () => {
    expect(pointWithin(at(180.0002))).toEqual(at(-179.9998));
    expect(pointWithin(at(-180.25))).toEqual(at(179.75));
    expect(pointWithin(at(180))).toEqual(at(180));
    expect(actionWithin({ do: "add", at: at(180.5) })).toEqual({ do: "add", at: at(-179.5) });
    expect(actionWithin({ do: "pick", index: 1 })).toEqual({ do: "pick", index: 1 });

    const peg = at(-179.99979531);
    const targets = targetsNear(
      targetsOf({ type: "Point", coordinates: [peg.longitude, LATITUDE] }, "peg"),
      180,
    );
    const caught = snap(
      at(180.0002),
      targets,
      ({ longitude, latitude }) => ({ x: longitude, y: latitude }),
      1,
    );
    expect(caught && actionWithin({ do: "add", at: caught.at })).toEqual({ do: "add", at: peg });
  });

  test("an edge across it is caught between its ends, not round the world", () => {
    const targets = targetsNear(targetsOf(road, "Lane"), MERIDIAN);
    const project = ({ longitude, latitude }: { longitude: number; latitude: number }) => ({
      x: 1e5 * longitude,
      y: 1e5 * latitude,
    });
    const caught = snap(at(180.0004), { corners: [], edges: targets.edges }, project, 10);
    expect(caught?.at.longitude).toBeCloseTo(180.0004, 9);
  });

  test("the corners that are worked on are in one piece too", () => {
    const drawing = beginDrawing({ shape: "line", rings: [[at(179.999), at(-179.999)]] }, false);
    const near = drawingNear(drawing, MERIDIAN).now.rings[0]?.map(({ longitude }) => longitude);
    expect(near?.[0]).toBe(179.999);
    expect(near?.[1]).toBeCloseTo(180.001, 9);
  });
});
