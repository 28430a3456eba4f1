/** Pins as they are entered: a pixel, and what is known to be there. Pure. */
import { readPosition } from "@/app/_ui/position";
import type { AerialPictureInfo, ContestOverview } from "@/lib/api/contracts";
import type { PicturePin } from "@/lib/earth";

export interface PinEntry {
  x: number;
  y: number;
  /** Id of a control point, firing point or feature; "typed" for coordinates, "" for not said yet. */
  what: string;
  /** Of a feature: which corner. */
  corner: number;
  /** Coordinates as typed. */
  text: string;
}

export interface KnownPlace {
  id: string;
  name: string;
  corners: { latitude: number; longitude: number }[];
}

export function knownPlaces({
  controlPoints,
  firingPoints,
  features,
}: Pick<ContestOverview, "controlPoints" | "firingPoints" | "features">): KnownPlace[] {
  const point = (
    id: string,
    name: string,
    { latitude, longitude }: { latitude: number; longitude: number },
  ) => ({
    id,
    name,
    corners: [{ latitude, longitude }],
  });
  return [
    ...controlPoints
      .filter(({ retired }) => !retired)
      .map((each) => point(each.id, `Control point ${each.name}`, each)),
    ...firingPoints
      .filter(({ retired }) => !retired)
      .map((each) => point(each.id, `Firing point ${each.number}`, each)),
    ...features
      .filter(({ retired }) => !retired)
      .map(({ id, name, geometry }) => {
        const line =
          geometry.type === "Point"
            ? [geometry.coordinates]
            : geometry.type === "LineString"
              ? geometry.coordinates
              : (geometry.coordinates[0] ?? []).slice(0, -1);
        return { id, name, corners: line.map(([longitude, latitude]) => ({ latitude, longitude })) };
      }),
  ];
}

export type ReadPin = { ok: true; pin: PicturePin & { label: string } } | { ok: false; message: string };

export function readPin(entry: PinEntry, places: readonly KnownPlace[]): ReadPin {
  const { x, y } = entry;
  if (entry.what === "") return { ok: false, message: "Say what is at this pin." };
  if (entry.what === "typed") {
    const read = readPosition(entry.text);
    return read.ok
      ? { ok: true, pin: { x, y, ...read.position, label: "" } }
      : { ok: false, message: read.message };
  }
  const place = places.find(({ id }) => id === entry.what);
  const at = place?.corners[entry.corner] ?? place?.corners[0];
  if (!place || !at) return { ok: false, message: "What this pin stood on is gone: choose again." };
  const label = place.corners.length > 1 ? `${place.name}, corner ${entry.corner + 1}` : place.name;
  return { ok: true, pin: { x, y, ...at, label: label.slice(0, 80) } };
}

/** Stored pins keep the coordinates they were given, whatever became of what stood there. */
export const entriesOf = ({ pins }: AerialPictureInfo): PinEntry[] =>
  pins.map(({ x, y, latitude, longitude }) => ({
    x,
    y,
    what: "typed",
    corner: 0,
    text: `${latitude}, ${longitude}`,
  }));
