/** How each kind of site feature is drawn, on the map and in its legend. Classes are in map.module.css. */
import { PATTERN } from "./patterns";

export interface FeatureStyle {
  /** Class of the path; sets stroke and, without a pattern, fill. */
  className:
    | "boundary"
    | "spectators"
    | "road"
    | "building"
    | "parking"
    | "line"
    | "water"
    | "shelter"
    | "path"
    | "post"
    | "other";
  pattern?: string;
  /** Stroke width in pixels. */
  weight: number;
  dashes?: string;
  /** A second stroke laid over the first: the light middle of a road, the ticks of an overhead line. */
  over?: { className: "roadMiddle" | "lineTicks"; weight: number; dashes?: string };
}

const STYLES: Record<string, FeatureStyle> = {
  boundary: { className: "boundary", weight: 3, dashes: "14 5 3 5" },
  spectators: { className: "spectators", pattern: PATTERN.crowd, weight: 2 },
  road: { className: "road", weight: 8, over: { className: "roadMiddle", weight: 5 } },
  building: { className: "building", weight: 2 },
  "car-park": { className: "parking", pattern: PATTERN.parking, weight: 2 },
  "overhead-line": {
    className: "line",
    weight: 2,
    over: { className: "lineTicks", weight: 10, dashes: "2 14" },
  },
  water: { className: "water", pattern: PATTERN.water, weight: 3 },
  "crew-shelter": { className: "shelter", weight: 3 },
  path: { className: "path", weight: 4, dashes: "2 7" },
  post: { className: "post", weight: 4 },
  // What the safety officer signed for.
  barrier: { className: "building", weight: 7 },
};

const OTHER: FeatureStyle = { className: "other", weight: 2 };

export function featureStyle(kind: string): FeatureStyle {
  return STYLES[kind] ?? OTHER;
}
