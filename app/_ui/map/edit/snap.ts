/** Catching what is already there: a tap or a drag that comes near enough takes that place exactly. Pure. */
import type { Geometry } from "geojson";
import { linesOf } from "@/lib/zones/lines";
import { pointNear } from "../near";
import type { Corner } from "./model";

export interface SnapTargets {
  corners: { at: Corner; of: string }[];
  edges: { from: Corner; to: Corner; of: string }[];
}

export interface Snapped {
  at: Corner;
  kind: "corner" | "edge";
  /** What was caught, in words: "a corner of Hollow Lane". */
  of: string;
}

interface Pixel {
  x: number;
  y: number;
}

/** Corners and edges of a geometry. */
export function targetsOf(geometry: Geometry, name: string): SnapTargets {
  const lines = linesOf(geometry).map((line) =>
    line.map(
      ([longitude, latitude]): Corner => ({ latitude: latitude as number, longitude: longitude as number }),
    ),
  );
  const corner = geometry.type === "Point" ? name : `a corner of ${name}`;
  const edge = `an edge of ${name}`;
  return {
    corners: lines.flatMap((line) => line.map((at) => ({ at, of: corner }))),
    edges: lines.flatMap((line) =>
      line.slice(1).map((to, index) => ({ from: line[index] as Corner, to, of: edge })),
    ),
  };
}

export const joined = (parts: readonly SnapTargets[]): SnapTargets => ({
  corners: parts.flatMap(({ corners }) => corners),
  edges: parts.flatMap(({ edges }) => edges),
});

/** As a map around this meridian has them. */
export function targetsNear({ corners, edges }: SnapTargets, meridian: number): SnapTargets {
  const near = (at: Corner) => pointNear(at, meridian);
  return {
    corners: corners.map((corner) => ({ ...corner, at: near(corner.at) })),
    edges: edges.map((edge) => ({ ...edge, from: near(edge.from), to: near(edge.to) })),
  };
}

/** The nearest corner within `reach` pixels, else the nearest place on an edge; corners go first. */
export function snap(
  at: Corner,
  { corners, edges }: SnapTargets,
  project: (corner: Corner) => Pixel,
  reach: number,
): Snapped | null {
  const here = project(at);
  let best: Snapped | null = null;
  let nearest = reach;
  for (const corner of corners) {
    const there = project(corner.at);
    const distance = Math.hypot(there.x - here.x, there.y - here.y);
    if (distance > nearest) continue;
    nearest = distance;
    best = { at: corner.at, kind: "corner", of: corner.of };
  }
  if (best) return best;
  for (const { from, to, of } of edges) {
    const [a, b] = [project(from), project(to)];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const length = dx * dx + dy * dy;
    if (length === 0) continue;
    const along = Math.min(1, Math.max(0, ((here.x - a.x) * dx + (here.y - a.y) * dy) / length));
    const distance = Math.hypot(a.x + along * dx - here.x, a.y + along * dy - here.y);
    if (distance > nearest) continue;
    nearest = distance;
    const between = (one: number, other: number) => one + along * (other - one);
    best = {
      at: {
        latitude: between(from.latitude, to.latitude),
        longitude: between(from.longitude, to.longitude),
      },
      kind: "edge",
      of,
    };
  }
  return best;
}
