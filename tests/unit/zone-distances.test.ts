/** The distances of a zone in words and on the map are those of its outline, the firing point's accuracy counted in. */
import { expect, test } from "vitest";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { callouts } from "@/app/_ui/zones/scene-of";
import { accuracyWords, distancesOnPaper } from "@/app/_ui/zones/zone-distances";
import { localPlane } from "@/lib/earth";
import { reachPolygon, zoneDistances } from "@/lib/zones";

const ORIGIN = { latitude: 44.2, longitude: -31.6 };
// 331 m ahead, 120 m behind, 60 m aside.
const reach = Array.from({ length: 360 }, (_, degree) => {
  const off = Math.min(degree, 360 - degree);
  return off <= 40 ? 330.6 : off >= 150 ? 119.2 : 59.9;
});
const exclusion = { forward: 330.6, backward: 119.2, side: 330.6 * Math.sin((40 * Math.PI) / 180) };

test.each([0, 0.3, 5])(
  "with a firing point known to %f m every page's number is the outline's own extent",
  (accuracy) => {
    const told = zoneDistances(exclusion, accuracy);
    const outline = reachPolygon(ORIGIN, 0, reach, 0, accuracy).coordinates[0] ?? [];
    const plane = localPlane(ORIGIN);
    const corners = outline.map(([longitude, latitude]) =>
      plane.toPlane({ longitude: longitude as number, latitude: latitude as number }),
    );
    const ahead = Math.max(...corners.map(({ north }) => north));
    const behind = Math.max(...corners.map(({ north }) => -north));
    expect(told.forward).toBeLessThanOrEqual(ahead);
    expect(ahead - told.forward).toBeLessThan(0.05);
    expect(told.backward).toBeLessThanOrEqual(behind);
    expect(behind - told.backward).toBeLessThan(0.05);

    // The label on the map stands on the outline and says no less than how far off that is.
    for (const { which, at, distance } of callouts({ bearing: 0, exclusion, accuracy }, outline, ORIGIN)) {
      expect(distance).toBe(told[which]);
      if (which === "side") continue;
      const { east, north } = plane.toPlane(at);
      expect(Math.abs(distance - Math.hypot(east, north))).toBeLessThan(0.05);
    }
    expect(distancesOnPaper({ exclusion, firingPointId: "a" }, [{ id: "a", accuracy }])).toEqual(told);
  },
);

test("what the numbers contain is said, and they are rounded away from the machine", () => {
  const { forward } = zoneDistances(exclusion, 5);
  expect(keepOffBoth(forward, "metric")).toBe("336 m (1102 ft)");
  expect(accuracyWords(5, "metric")).toContain("5.0 m (16.4 ft) of that is how far the machine may stand");
  expect(accuracyWords(0, "metric")).toBeNull();
});
