/** What spotters' sightings of a shot come to: those that count, and the rough point where they cross. */
import type { RoughPointInfo, SightingInfo } from "../api/contracts";
import { normalBearing } from "../earth";
import { ellipseOf, measure, roughPointOf } from "../survey";
import { firingPointOf, type JudgedShot, pegOf, rethrowOf } from "./judging";

interface SightingRow {
  id: string;
  controlPointId: string;
  controlPoint: Parameters<typeof pegOf>[0];
  bearing: number | null;
  north: string;
  uncertainty: number;
  way: string;
  observedAt: Date;
  sequence: number;
  createdAt: Date;
  badge: { label: string };
}

type SightedShot<S> = Pick<JudgedShot, "firingPoint" | "fixes"> & {
  rulings: readonly (JudgedShot["rulings"][number] & { createdAt: Date })[];
  sightings: readonly S[];
};

/**
 * The newest sighting of each post, by when it was seen: one that was sent late takes back none that was seen later.
 * What was seen before a re-throw was ruled, however late it comes, is of the throw that is void.
 */
export function sightingsInForce<S extends SightingRow>(shot: SightedShot<S>): S[] {
  const spent = shot.rulings.find(({ sequence }) => sequence === rethrowOf(shot))?.createdAt;
  const seen = shot.sightings.filter(({ observedAt }) => !spent || observedAt > spent);
  const ordered = seen.toSorted(
    (a, b) => a.observedAt.getTime() - b.observedAt.getTime() || a.sequence - b.sequence,
  );
  const newest = new Map(ordered.map((sighting) => [sighting.controlPointId, sighting]));
  return [...newest.values()].sort((a, b) => a.controlPoint.name.localeCompare(b.controlPoint.name));
}

/** With the posts where they stand now: a place that was entered wrong is put right afterwards. */
export function roughPoint(
  shot: Pick<SightedShot<never>, "firingPoint"> & { bearing: number },
  sightings: readonly SightingRow[],
  declination: number,
): RoughPointInfo | null {
  const bearings = sightings.flatMap(({ controlPointId, bearing, north, uncertainty }) =>
    bearing === null ? [] : [{ from: controlPointId, bearing, north: north as "true", uncertainty }],
  );
  if (bearings.length < 2) return null;
  const { located, warnings } = measure(
    { outcome: "landed", method: "spotters", bearings },
    {
      firingPoint: firingPointOf(shot.firingPoint),
      pegs: Object.fromEntries(
        sightings.map(({ controlPointId, controlPoint }) => [controlPointId, pegOf(controlPoint)]),
      ),
      declination,
      centreline: shot.bearing,
    },
  );
  if (!located) return { located: null, warnings };
  const { point, covariance } = roughPointOf(located);
  return {
    located: {
      latitude: point.latitude,
      longitude: point.longitude,
      covariance,
      ellipse: ellipseOf(covariance),
      distance: located.mark,
      bearing: located.bearing,
    },
    warnings,
  };
}

export function sightingInfo(row: SightingRow, declination: number): SightingInfo {
  const { id, controlPointId, bearing, uncertainty } = row;
  const turn = row.north === "magnetic" ? declination : 0;
  return {
    id,
    from: controlPointId,
    postName: row.controlPoint.name,
    bearing,
    north: row.north as SightingInfo["north"],
    trueBearing: bearing === null ? null : normalBearing(bearing + turn),
    uncertainty,
    way: row.way as SightingInfo["way"],
    observedAt: row.observedAt.toISOString(),
    createdAt: row.createdAt.toISOString(),
    by: row.badge.label,
  };
}
