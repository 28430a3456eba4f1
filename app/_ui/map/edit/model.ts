/**
 * What is being drawn, and every change of it that can be undone. Pure: the map and the table of coordinates send
 * the same actions, so one is the equal of the other. Corners are latitude and longitude on WGS 84; an outline is
 * kept open (its first corner is not repeated) and is closed when it leaves.
 */
import type { SiteGeometry } from "@/lib/api/contracts";
import { featureGeometrySchema } from "@/lib/zones/feature-check";
import { pointNear, pointWithin } from "../near";

export interface Corner {
  latitude: number;
  longitude: number;
}

export type Shape = "point" | "line" | "area";

export interface Drawn {
  shape: Shape;
  /** The outline, then its holes; a line or a point has the first alone. */
  rings: readonly (readonly Corner[])[];
}

export interface Drawing {
  now: Drawn;
  past: readonly Drawn[];
  future: readonly Drawn[];
  /** Which ring is worked on. */
  ring: number;
  /** The corner that is worked on. */
  picked: number | null;
  /** Whether a tap on the map adds a corner at the end. */
  adding: boolean;
}

export type DrawAction =
  | { do: "add"; at: Corner }
  /** So that it comes to stand at this index. */
  | { do: "insert"; index: number; at: Corner }
  | { do: "place"; index: number; at: Corner }
  | { do: "remove"; index: number }
  | { do: "shift"; index: number; by: 1 | -1 }
  | { do: "shape"; shape: Shape }
  | { do: "replace"; drawn: Drawn }
  | { do: "undo" }
  | { do: "redo" }
  | { do: "pick"; index: number | null }
  | { do: "ring"; ring: number }
  | { do: "adding"; adding: boolean };

/** Steps back that are kept. */
const MEMORY = 200;

export const nothingDrawn = (shape: Shape): Drawn => ({ shape, rings: [[]] });

export function beginDrawing(drawn: Drawn, adding: boolean): Drawing {
  return { now: drawn, past: [], future: [], ring: 0, picked: null, adding };
}

/** The corners that are worked on. */
export const cornersOf = ({ now, ring }: Pick<Drawing, "now" | "ring">): readonly Corner[] =>
  now.rings[ring] ?? [];

/** What cannot be done leaves everything as it is. */
export function draw(drawing: Drawing, action: DrawAction): Drawing {
  const corners = cornersOf(drawing);
  switch (action.do) {
    case "add":
      if (drawing.now.shape === "point") return changed(drawing, [action.at], 0);
      if (same(corners.at(-1), action.at)) return drawing;
      return changed(drawing, [...corners, action.at], corners.length);
    case "insert":
      if (drawing.now.shape === "point" && corners.length > 0) return drawing;
      return changed(drawing, corners.toSpliced(action.index, 0, action.at), action.index);
    case "place":
      if (!corners[action.index] || same(corners[action.index], action.at)) return drawing;
      return changed(drawing, corners.with(action.index, action.at), action.index);
    case "remove":
      if (!corners[action.index]) return drawing;
      return changed(drawing, corners.toSpliced(action.index, 1), null);
    case "shift": {
      const [one, other] = [corners[action.index], corners[action.index + action.by]];
      if (!one || !other) return drawing;
      const swapped = corners.with(action.index, other).with(action.index + action.by, one);
      return changed(drawing, swapped, action.index + action.by);
    }
    case "shape": {
      const { now } = drawing;
      if (action.shape === now.shape) return drawing;
      const outline = now.rings[0] ?? [];
      const rings = [action.shape === "point" ? outline.slice(0, 1) : outline];
      return { ...step(drawing, { shape: action.shape, rings }), ring: 0, picked: null };
    }
    case "replace":
      return { ...step(drawing, action.drawn), ring: 0, picked: null, adding: false };
    case "undo":
      return back(drawing);
    case "redo":
      return forth(drawing);
    case "pick":
      return { ...drawing, picked: action.index };
    case "ring":
      return { ...drawing, ring: action.ring, picked: null };
    case "adding":
      return { ...drawing, adding: action.adding };
  }
}

/** The drawing as a map around this meridian has it, in one piece. */
export function drawingNear(drawing: Drawing, meridian: number): Drawing {
  const { shape, rings } = drawing.now;
  const near = rings.map((ring) => ring.map((corner) => pointNear(corner, meridian)));
  return { ...drawing, now: { shape, rings: near } };
}

/** What was done on such a map, with its longitudes within ±180. */
export const actionWithin = (action: DrawAction): DrawAction =>
  "at" in action ? { ...action, at: pointWithin(action.at) } : action;

const same = (a: Corner | undefined, b: Corner | undefined) =>
  a !== undefined && a.latitude === b?.latitude && a.longitude === b?.longitude;

function step(drawing: Drawing, now: Drawn): Drawing {
  return { ...drawing, now, past: [...drawing.past, drawing.now].slice(-MEMORY), future: [] };
}

function changed(drawing: Drawing, corners: readonly Corner[], picked: number | null): Drawing {
  const { shape, rings } = drawing.now;
  return { ...step(drawing, { shape, rings: rings.with(drawing.ring, corners) }), picked };
}

function back(drawing: Drawing): Drawing {
  const before = drawing.past.at(-1);
  if (!before) return drawing;
  const past = drawing.past.slice(0, -1);
  return { ...onto(drawing, before), past, future: [drawing.now, ...drawing.future] };
}

function forth(drawing: Drawing): Drawing {
  const [next, ...future] = drawing.future;
  if (!next) return drawing;
  return { ...onto(drawing, next), past: [...drawing.past, drawing.now], future };
}

const onto = (drawing: Drawing, now: Drawn): Drawing => ({
  ...drawing,
  now,
  ring: Math.min(drawing.ring, now.rings.length - 1),
  picked: null,
});

const positionOf = ({ longitude, latitude }: Corner): [number, number] => [longitude, latitude];
const cornerOf = ([longitude, latitude]: readonly [number, number]): Corner => ({ latitude, longitude });

export function drawnOf(geometry: SiteGeometry): Drawn {
  if (geometry.type === "Point") return { shape: "point", rings: [[cornerOf(geometry.coordinates)]] };
  if (geometry.type === "LineString") return { shape: "line", rings: [geometry.coordinates.map(cornerOf)] };
  return { shape: "area", rings: geometry.coordinates.map((ring) => ring.slice(0, -1).map(cornerOf)) };
}

/** The geometry as it is saved, or a sentence that says what it lacks. */
export function geometryOf({
  shape,
  rings,
}: Drawn): { ok: true; geometry: SiteGeometry } | { ok: false; message: string } {
  const outline = rings[0] ?? [];
  const first = outline[0];
  const lacks = (message: string) => ({ ok: false, message }) as const;
  if (!first)
    return lacks(shape === "point" ? "Place it on the map or by its coordinates." : "Draw its first corner.");
  if (shape === "point") return { ok: true, geometry: { type: "Point", coordinates: positionOf(first) } };
  if (shape === "line" && outline.length < 2) return lacks("A line needs two points: add another.");
  if (shape === "area" && outline.length < 3) return lacks("An area needs three corners: add another.");
  const closed = (ring: readonly Corner[]) => [...ring, ...ring.slice(0, 1)].map(positionOf);
  const checked = featureGeometrySchema.safeParse(
    shape === "line"
      ? { type: "LineString", coordinates: outline.map(positionOf) }
      : // A hole that has lost its corners is gone.
        { type: "Polygon", coordinates: rings.filter((ring) => ring.length > 0).map(closed) },
  );
  if (checked.success) return { ok: true, geometry: checked.data };
  return lacks(checked.error.issues[0]?.message ?? "This shape cannot be used.");
}
