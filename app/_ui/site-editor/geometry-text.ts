/** A site feature as an organiser has it: GeoJSON from elsewhere, or one point a line. Pure. */

import { check } from "@/lib/api/check";
import { geometrySchema, type SiteGeometry } from "@/lib/api/contracts";
import { readPosition } from "../position";

export type ReadGeometry = { ok: true; geometry: SiteGeometry } | { ok: false; message: string };

export type Shape = "area" | "line" | "point";

const refused = (message: string): ReadGeometry => ({ ok: false, message: `Shape: ${message}` });

/** `shape` says what a list of points means; GeoJSON says it itself. */
export function readGeometry(text: string, shape: Shape): ReadGeometry {
  const plain = text.trim();
  if (plain === "") return refused("give its points, one a line, or paste GeoJSON.");
  return plain.startsWith("{") ? fromGeoJson(plain) : fromLines(plain, shape);
}

function fromGeoJson(text: string): ReadGeometry {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return refused("this begins like GeoJSON but is cut off or mistyped. Copy it whole and paste it again.");
  }
  const geometry = geometryIn(parsed);
  if (typeof geometry === "string") return refused(geometry);
  const checked = check(geometrySchema, withoutHeights(geometry));
  if (checked.ok) return { ok: true, geometry: checked.value };
  const first = checked.errors[0];
  return refused(
    `${first?.field ? `${first.field}: ` : ""}${first?.message ?? "this is no usable geometry."}`,
  );
}

function geometryIn(value: unknown): object | string {
  if (!value || typeof value !== "object") return "this holds no geometry.";
  if ("features" in value && Array.isArray(value.features)) {
    if (value.features.length !== 1) {
      return `this collection holds ${value.features.length} features. Paste them one at a time, each with its kind.`;
    }
    return geometryIn(value.features[0]);
  }
  if ("geometry" in value) return geometryIn(value.geometry);
  return value;
}

/** Positions with a height are common in the wild; the map is flat. */
function withoutHeights(geometry: object): object {
  const flat = (part: unknown): unknown =>
    !Array.isArray(part) ? part : typeof part[0] === "number" ? part.slice(0, 2) : part.map(flat);
  const { type, coordinates } = geometry as { type?: unknown; coordinates?: unknown };
  return { type, coordinates: flat(coordinates) };
}

function fromLines(text: string, shape: Shape): ReadGeometry {
  const points: [number, number][] = [];
  for (const [index, line] of text.split(/\r?\n/).entries()) {
    if (line.trim() === "") continue;
    const read = readPosition(line);
    if (!read.ok)
      return refused(`line ${index + 1}, “${line.trim()}”: ${read.message.replace(/^Position: /, "")}`);
    points.push([read.position.longitude, read.position.latitude]);
  }
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return refused("give its points, one a line.");
  if (shape === "point") {
    if (points.length > 1) return refused("a point has one line. Choose line or area for more.");
    return { ok: true, geometry: { type: "Point", coordinates: first } };
  }
  if (shape === "line") {
    if (points.length < 2) return refused("a line needs at least two points.");
    return { ok: true, geometry: { type: "LineString", coordinates: points } };
  }
  const closed = first[0] === last[0] && first[1] === last[1];
  const corners = closed ? points.length - 1 : points.length;
  if (corners < 3) return refused("an area needs at least three corners.");
  return { ok: true, geometry: { type: "Polygon", coordinates: [closed ? points : [...points, first]] } };
}
