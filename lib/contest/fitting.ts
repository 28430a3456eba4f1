/** What may be laid out on a site, and where. Pure: refusals alone. */
import { z } from "zod";
import type { SiteGeometry } from "../api/contracts";
import { type GeoPoint, inverse } from "../earth";
import {
  type FeatureGeometry,
  type FeatureKindName,
  featureGeometrySchema,
  featureKind,
  geometryProblem,
  linesOf,
  SITE_RADIUS,
} from "../zones";
import { invalid, parse } from "./errors";

/** A boundary holds every zone inside it, and an overhead line is protected, whatever else is wished. */
export function mustKeepRule(kind: string, rule: string | null): void {
  if (rule === null) return;
  if (featureKind(kind).rule === "contains")
    throw invalid("rule", "A boundary has one rule: every zone stays inside. Leave the rule out.");
  if (rule === "contains")
    throw invalid("rule", "Only a boundary holds zones inside it. Choose another rule, or draw a boundary.");
  if (kind === "overhead-line" && rule !== "protected")
    throw invalid(
      "rule",
      "An overhead line stays protected: only its owner’s written agreement, in the register of consents, lets a zone reach it.",
    );
}

/** The geometry as it is kept. Refuses what cannot be meant: an outline that crosses itself, another continent. */
export function fitting(site: GeoPoint, kind: string, drawn: SiteGeometry): FeatureGeometry {
  const problem = geometryProblem(kind as FeatureKindName, drawn.type);
  if (problem) throw invalid("geometry.type", problem);
  const { geometry } = parse(z.object({ geometry: featureGeometrySchema }), { geometry: drawn });
  for (const [longitude, latitude] of linesOf(geometry).flat())
    mustBeNear(site, { latitude, longitude }, "geometry.coordinates");
  return geometry;
}

export function mustBeNear(site: GeoPoint, point: GeoPoint, field: string): void {
  const { distance } = inverse(site, point);
  if (distance > SITE_RADIUS)
    throw invalid(
      field,
      `This is ${Math.round(distance / 1000)} km from the site's middle. Check the sign, and that longitude and latitude are not swapped.`,
    );
}
