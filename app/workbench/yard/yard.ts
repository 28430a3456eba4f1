/**
 * The yard or field where a team tests: what lies around, where the machine may stand and which way it throws. Kept in
 * one browser as versioned text. Pure; other pages of the workbench read it from here.
 */
import { z } from "zod";
import { check } from "@/lib/api/check";
import {
  bearingSchema,
  controlPointRequest,
  featureRequest,
  firingPointRequest,
  height,
  idSchema,
  latitude,
  longitude,
  spotHeightRequest,
  text,
} from "@/lib/api/contracts";
import type { GeoPoint } from "@/lib/earth";
import { featureGeometrySchema, geometryProblem } from "@/lib/zones/feature-check";
import { profileOf, STEPS, STEPS_A_DEGREE } from "@/lib/zones/profile";

const VERSION = 1;
/** What a site may hold in all, so that a phone draws it. */
export const MOST_PLACES = 2000;

const feature = featureRequest
  .extend({ id: idSchema, geometry: featureGeometrySchema })
  .superRefine(({ kind, geometry }, context) => {
    const problem = geometryProblem(kind, geometry.type);
    if (problem) context.addIssue({ code: "custom", path: ["geometry"], message: problem });
  });
const firingPoint = firingPointRequest.extend({
  id: idSchema,
  number: z.number().int().min(1).max(999),
  height: height.nullable(),
  /** Null only of one that a file brought without: nothing is computed for it then. */
  bearing: bearingSchema.nullable(),
});
const controlPoint = controlPointRequest.extend({ id: idSchema, height: height.nullable() });
const spotHeight = spotHeightRequest.extend({ id: idSchema });

const several = <T extends z.ZodType>(each: T) => z.array(each).max(MOST_PLACES);
export const yardSchema = z.strictObject({
  name: text(0, 80),
  /** Who decides there, as an office: "captain", "range warden". */
  decides: text(0, 120),
  latitude,
  longitude,
  /** Of the ground, m above the ellipsoid; null: nobody gave it. */
  height: height.nullable(),
  /** Degrees, east positive. */
  declination: z.number().min(-180).max(180),
  features: several(feature),
  firingPoints: several(firingPoint),
  controlPoints: several(controlPoint),
  spotHeights: several(spotHeight),
  /** The firing point on which the machine stands. */
  chosen: idSchema.nullable(),
});
export type Yard = z.infer<typeof yardSchema>;
export type YardPoint = Yard["firingPoints"][number];

export const newYard = ({ latitude, longitude }: GeoPoint): Yard => ({
  name: "",
  decides: "",
  latitude,
  longitude,
  height: null,
  declination: 0,
  features: [],
  firingPoints: [],
  controlPoints: [],
  spotHeights: [],
  chosen: null,
});

// ---------------------------------------------------------------- as text

export const yardToText = (yard: Yard): string => JSON.stringify({ version: VERSION, yard });

export type YardRead =
  | { ok: true; yard: Yard }
  /** Nothing was kept. */
  | { ok: false; none: true }
  /** What is wrong with what was kept, in a sentence. */
  | { ok: false; none: false; message: string };

/** A yard kept earlier. What cannot be read is refused as a whole: half a site has gaps that nobody sees. */
export function yardFromText(kept: string | null): YardRead {
  if (kept === null) return { ok: false, none: true };
  const wrong = (message: string): YardRead => ({ ok: false, none: false, message });
  let found: { version?: unknown; yard?: unknown } | null;
  try {
    found = JSON.parse(kept);
  } catch {
    return wrong("It is cut off or mistyped.");
  }
  if (typeof found !== "object" || found === null || !("version" in found))
    return wrong("It is no yard of ours.");
  if (found.version !== VERSION)
    return wrong(
      `It is of version ${String(found.version).slice(0, 20)}, and this program reads version ${VERSION}: a newer one may have kept it.`,
    );
  const read = check(yardSchema, found.yard);
  if (read.ok) return { ok: true, yard: read.value };
  const [error] = read.errors;
  return wrong(`${error?.field || "The yard"}: ${error?.message ?? "it cannot be read."}`);
}

// ---------------------------------------------------------------- where the machine stands

export interface YardStand extends GeoPoint {
  id: string;
  number: number;
  name: string;
  /** Of the ground, m above the ellipsoid: the yard's where nobody gave the point's. */
  height: number;
  heightGiven: boolean;
  /** m */
  accuracy: number;
  /** Degrees true. */
  bearing: number;
}

/** The firing point on which the machine stands: the chosen one, else the first. */
export const pointOf = ({ firingPoints, chosen }: Yard): YardPoint | null =>
  firingPoints.find(({ id }) => id === chosen) ?? firingPoints[0] ?? null;

/** Where the machine stands and which way it throws; null while that is not laid out. */
export function standOf(yard: Yard): YardStand | null {
  const point = pointOf(yard);
  if (!point || point.bearing === null) return null;
  const { id, number, name, latitude, longitude, accuracy, bearing } = point;
  return {
    ...{ id, number, name, latitude, longitude, accuracy, bearing },
    height: point.height ?? yard.height ?? 0,
    heightGiven: point.height !== null,
  };
}

/**
 * How far the zone reaches on an azimuth (degrees true) from the firing point, m, its accuracy included.
 * `reach`: of the sheet's exclusion, 360 numbers clockwise from the bearing.
 */
export function reachToward(
  { bearing, accuracy }: Pick<YardStand, "bearing" | "accuracy">,
  reach: readonly number[],
  azimuth: number,
): number {
  const off = (((azimuth - bearing) % 360) + 360) % 360;
  return profileOf(reach, accuracy)[Math.floor(off * STEPS_A_DEGREE) % STEPS] as number;
}
