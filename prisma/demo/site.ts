/** The demo's field, in metres east and north of its middle. An invented meadow, put where there is only open ocean. */
import { localPlane } from "../../lib/earth";

export const MIDDLE = { latitude: 44.2, longitude: -31.6 };
/** Of the ground, m. */
export const HEIGHT = 62;

export type Place = readonly [east: number, north: number];

const plane = localPlane(MIDDLE);
const rounded = (degrees: number) => Math.round(degrees * 1e7) / 1e7;

export function onSite([east, north]: Place): { latitude: number; longitude: number } {
  const { latitude, longitude } = plane.toPoint({ east, north });
  return { latitude: rounded(latitude), longitude: rounded(longitude) };
}

const positions = (places: readonly Place[]) =>
  places.map((place) => {
    const { latitude, longitude } = onSite(place);
    return [longitude, latitude];
  });

const area = (...corners: Place[]) => ({
  type: "Polygon",
  coordinates: [positions([...corners, corners[0] as Place])],
});
const box = (west: number, south: number, east: number, north: number) =>
  area([west, south], [east, south], [east, north], [west, north]);
const point = (...place: Place) => ({ type: "Point", coordinates: positions([place])[0] });
const line = (...places: Place[]) => ({ type: "LineString", coordinates: positions(places) });

export const FEATURES = [
  {
    kind: "boundary",
    name: "Hedge around the field",
    geometry: area([-352, -176], [-20, -181], [350, -174], [354, 168], [40, 180], [-350, 174]),
  },
  {
    kind: "spectators",
    name: "Spectator bank",
    geometry: area([-344, -118], [-312, -124], [-309, 96], [-342, 104]),
  },
  { kind: "road", name: "Hollow Lane", geometry: line([-366, -240], [-364, 20], [-369, 240]) },
  {
    kind: "building",
    name: "Threshing barn",
    geometry: area([-305, 140], [-279, 144], [-282, 162], [-308, 158]),
  },
  {
    kind: "car-park",
    name: "Car park",
    geometry: area([-346, -171], [-296, -172], [-294, -147], [-344, -145]),
  },
  { kind: "overhead-line", name: "Overhead line", geometry: line([306, -260], [318, 250]) },
  {
    kind: "water",
    name: "Minnow Brook",
    geometry: line([168, 178], [150, 110], [128, 70], [132, 10], [104, -44], [96, -120], [70, -179]),
  },
  { kind: "post", name: "Post north", geometry: point(-60, 166) },
  { kind: "post", name: "Post south", geometry: point(-60, -168) },
  { kind: "crew-shelter", name: "Crew shelter north", geometry: box(-139, 22, -134, 26) },
  { kind: "crew-shelter", name: "Crew shelter middle", geometry: box(-139, -2, -134, 2) },
  { kind: "crew-shelter", name: "Crew shelter south", geometry: box(-139, -26, -134, -22) },
] as const;

/** Pegs that a receiver with corrections was set on; landing points are measured from them. */
export const CONTROL_POINTS = [
  { name: "Peg A", ...onSite([-150, -70]), accuracy: 0.02, note: "South end of the firing line" },
  { name: "Peg B", ...onSite([-150, 70]), accuracy: 0.02, note: "North end of the firing line" },
  { name: "Peg C", ...onSite([40, 150]), accuracy: 0.02, note: "Under the hedge" },
] as const;
