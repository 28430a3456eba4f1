/**
 * Forty machines on a site of 500 features: all zones, conflicts and stand-clear lists; all clear bearings; one zone
 * drawn anew as while a firing point is dragged; a plan for all. The yardstick of the same run is JSTS (npm) for the
 * distance from one zone to every feature, which needs no clipping and no lists.
 */
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import { groundDirect, nearPlane } from "../../lib/earth";
import {
  clearBearings,
  conflictsOn,
  dayZone,
  FEATURE_KIND_NAMES,
  layOut,
  layZone,
  place,
  reachPolygon,
  standClear,
  type ZoneFeature,
} from "../../lib/zones";
import { median } from "./timing/median";

const MACHINES = 40;
const FEATURES = 500;
const ORIGIN = { latitude: 46, longitude: 11 };
const HEIGHT = 200;
const KINDS = FEATURE_KIND_NAMES.filter((kind) => kind !== "boundary");

let state = 1;
const random = () => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 2 ** 32;
};
const at = (
  from: { latitude: number; longitude: number },
  bearing: number,
  distance: number,
): [number, number] => {
  const { latitude, longitude } = groundDirect(from, bearing, distance, HEIGHT);
  return [longitude, latitude];
};

function feature(index: number): ZoneFeature {
  const kind = KINDS[index % KINDS.length];
  const [longitude, latitude] = at(ORIGIN, random() * 360, 250 + random() * 900);
  const centre = { latitude, longitude };
  const turn = random() * 360;
  const base = { id: String(index), kind };
  if (kind === "post") return { ...base, geometry: { type: "Point", coordinates: [longitude, latitude] } };
  if (kind === "road" || kind === "overhead-line" || kind === "path") {
    const coordinates = Array.from({ length: 6 }, (_, step) => at(centre, turn + 20 * random(), 25 * step));
    return { ...base, geometry: { type: "LineString", coordinates } };
  }
  const corners = 4 + (index % 7);
  const ring = Array.from({ length: corners }, (_, corner) =>
    at(centre, turn - (360 * corner) / corners, 8 + 15 * random()),
  );
  return { ...base, geometry: { type: "Polygon", coordinates: [[...ring, ring[0]]] } };
}

const boundary: ZoneFeature = {
  id: "boundary",
  kind: "boundary",
  geometry: {
    type: "Polygon",
    coordinates: [[45, 315, 225, 135, 45].map((bearing) => at(ORIGIN, bearing, 1300))],
  },
};
const features = [boundary, ...Array.from({ length: FEATURES - 1 }, (_, index) => feature(index))];
const machines = Array.from({ length: MACHINES }, (_, index) => {
  const [longitude, latitude] = at(ORIGIN, index < MACHINES / 2 ? 90 : 270, 8 * (index % (MACHINES / 2)));
  const ahead = 120 + 180 * random();
  return {
    id: String(index),
    latitude,
    longitude,
    height: HEIGHT,
    accuracy: index % 2 === 0 ? 0 : 2,
    bearing: 60 * random() - 30,
    reach: Array.from({ length: 360 }, (_, degree) => {
      const off = Math.min(degree, 360 - degree);
      return off < 38 ? ahead * (1 - (off * off) / 3000) : off > 150 ? ahead / 2 : 40;
    }),
  };
});

const drawn = (machine: (typeof machines)[number]) =>
  reachPolygon(machine, machine.bearing, machine.reach, machine.height, machine.accuracy);

function everything() {
  const site = layOut(features, ORIGIN, HEIGHT);
  let listed = 0;
  const zones = machines.map((machine) => {
    const zone = layZone(site, drawn(machine));
    const found = conflictsOn(site, zone);
    listed +=
      standClear(site, zone, found, machines).length + found.filter(({ inConflict }) => inConflict).length;
    return zone;
  });
  return { site, zones, listed };
}
const { site, zones } = everything();

// ---------------------------------------------------------------- the yardstick

const plane = nearPlane(ORIGIN, HEIGHT);
const factory = new GeometryFactory();
const coordinate = ([longitude, latitude]: readonly number[]) => {
  const { east, north } = plane.toPlane({ latitude, longitude });
  return new Coordinate(east, north);
};
const geometry = (of: ZoneFeature["geometry"] | ReturnType<typeof drawn>) =>
  of.type === "Point"
    ? factory.createPoint(coordinate(of.coordinates))
    : of.type === "LineString"
      ? factory.createLineString(of.coordinates.map(coordinate))
      : factory.createPolygon(factory.createLinearRing((of.coordinates[0] ?? []).map(coordinate)), []);
const theirFeatures = features.map((each) => geometry(each.geometry));
const theirZone = geometry(drawn(machines[0]));
const yardstick = () =>
  theirFeatures.reduce((sum: number, each: unknown) => sum + DistanceOp.distance(theirZone, each), 0);

const reference = median(yardstick, 5, 2);
const limits: [name: string, time: number, limit: number | null][] = [
  [`zones, conflicts and stand-clear lists of ${MACHINES} machines`, median(everything, 7, 3), 300],
  ["all zones as one", median(() => dayZone(site, zones), 7, 3), null],
  [
    `clear bearings of ${MACHINES} machines`,
    median(() => machines.map((machine) => clearBearings(machine, machine.reach, features)), 3, 1),
    1500,
  ],
  ["one zone drawn anew", median(() => drawn(machines[1]), 101, 50), 33],
  [
    `a plan for ${MACHINES} machines`,
    median(
      () =>
        place(
          machines.map(({ id, reach, bearing }) => ({ id, reach, wished: { pointId: id, bearing } })),
          machines,
          features,
        ),
      1,
      0,
    ),
    null,
  ],
];
console.log(`JSTS: distance from one zone to ${FEATURES} features ${reference.toFixed(0)} ms`);
for (const [name, time, limit] of limits) {
  const within = limit === null ? "" : `, wanted ${limit} ms${time > limit ? ": TOO SLOW" : ""}`;
  console.log(
    `${name}: ${time.toFixed(time < 10 ? 2 : 0)} ms, ${(time / reference).toFixed(2)} of that${within}`,
  );
}
