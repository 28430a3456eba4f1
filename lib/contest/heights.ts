/** The heights of a contest's site that describe its ground. */
import { createHash } from "node:crypto";
import type { Database } from "../db";
import type { MeasuredGround } from "./ground";

export interface KnownGround extends MeasuredGround {
  /** The same for the same heights at the same places. */
  signature: string;
}

/**
 * Every height that describes the ground: spot heights, with the firing points and control points whose height somebody
 * gave. Null without a spot height: then the ground is level, whatever its points say.
 */
export async function measuredGround(db: Database, contestId: string): Promise<KnownGround | null> {
  const select = { latitude: true, longitude: true, height: true } as const;
  const where = { contestId, retired: false };
  const spots = await db.spotHeight.findMany({ where, select });
  if (spots.length === 0) return null;
  const measured = { ...where, heightGiven: true };
  const [firingPoints, pegs] = await Promise.all([
    db.firingPoint.findMany({ where: measured, select }),
    db.controlPoint.findMany({ where: measured, select }),
  ]);
  const points = [...spots, ...firingPoints, ...pegs].sort(
    (a, b) => a.latitude - b.latitude || a.longitude - b.longitude || a.height - b.height,
  );
  const signature = createHash("sha256").update(JSON.stringify(points)).digest("hex");
  return { points, signature };
}
