/** Laying out the range: divisions, entrants, firing points and site features. The organiser's. */
import { z } from "zod";
import {
  divisionRequest,
  type divisionSchema,
  entrantRequest,
  type entrantSchema,
  featureChange,
  featureRequest,
  type featureSchema,
  firingPointMove,
  firingPointRequest,
  type firingPointSchema,
  type SiteGeometry,
} from "../api/contracts";
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
import { retireConsentsAbout } from "./consents-about";
import { conflict, invalid, parse, taken } from "./errors";
import { type ContestRow, contestBySlug, featureIn, firingPointIn } from "./find";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

type DivisionInfo = z.infer<typeof divisionSchema>;
type EntrantInfo = z.infer<typeof entrantSchema>;
export type FiringPointInfo = z.infer<typeof firingPointSchema>;
export type FeatureInfo = z.infer<typeof featureSchema>;

const LAY_OUT = "lay out divisions, entrants, firing points and site features";

export async function contestToLayOut(call: Call, slug: string): Promise<ContestRow> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, LAY_OUT, contest.id);
  return contest;
}

export async function addDivision(call: Call, slug: string, body: unknown): Promise<Reply<DivisionInfo>> {
  const { name } = parse(divisionRequest, body);
  const { id: contestId } = await contestToLayOut(call, slug);
  return committed(call, contestId, { act: "division", contestId, name }, async (tx, book) => {
    if (await tx.division.findFirst({ where: { contestId, name } }))
      throw taken("name", `There is a division ${name} already.`);
    const position = (await tx.division.count({ where: { contestId } })) + 1;
    const row = await tx.division.create({ data: { id: newId(), contestId, name, position } });
    await book.append("division-added", row.id, { name, position });
    return { id: row.id, name, position };
  });
}

export async function addEntrant(call: Call, slug: string, body: unknown): Promise<Reply<EntrantInfo>> {
  const entrant = parse(entrantRequest, body);
  const { id: contestId } = await contestToLayOut(call, slug);
  return committed(call, contestId, { act: "entrant", contestId, entrant }, async (tx, book) => {
    const { divisionId, name } = entrant;
    if (!(await tx.division.findFirst({ where: { id: divisionId, contestId } })))
      throw invalid("divisionId", "No division of this contest has this id.");
    if (await tx.entrant.findFirst({ where: { contestId, name } }))
      throw taken("name", `There is an entrant ${name} already.`);
    const last = await tx.entrant.findFirst({ where: { contestId }, orderBy: { number: "desc" } });
    const number = entrant.number ?? (last?.number ?? 0) + 1;
    if (await tx.entrant.findFirst({ where: { contestId, number } }))
      throw taken("number", `Number ${number} is given to another entrant.`);
    const row = await tx.entrant.create({ data: { id: newId(), contestId, divisionId, number, name } });
    await book.append("entrant-added", row.id, { division: divisionId, number });
    return { id: row.id, divisionId, number, name };
  });
}

export async function addFiringPoint(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<FiringPointInfo>> {
  const point = parse(firingPointRequest, body);
  const contest = await contestToLayOut(call, slug);
  const contestId = contest.id;
  mustBeNear(contest, point, "latitude");
  const request = { act: "firing-point", contestId, point };
  const written = committed(call, contestId, request, async (tx, book) => {
    const last = await tx.firingPoint.findFirst({ where: { contestId }, orderBy: { number: "desc" } });
    const number = point.number ?? (last?.number ?? 0) + 1;
    if (await tx.firingPoint.findFirst({ where: { contestId, number } }))
      throw taken("number", `There is a firing point ${number} already.`);
    const { name, latitude, longitude, height = contest.height, accuracy } = point;
    const place = { latitude, longitude, height, accuracy };
    const row = await tx.firingPoint.create({ data: { id: newId(), contestId, number, name, ...place } });
    await book.append("firing-point-added", row.id, { number, ...place });
    return firingPointInfo(row);
  });
  // Its height is one of those that describe the ground.
  return thenSheets(call.db, contestId, written);
}

/** Refused once a shot from there has an entry: its marks are measured from where the point was. */
export async function moveFiringPoint(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<FiringPointInfo>> {
  const move = parse(firingPointMove, body);
  const contest = await contestToLayOut(call, slug);
  mustBeNear(contest, move, "latitude");
  const written = committed(
    call,
    contest.id,
    { act: "move", id, move },
    async (tx, book) => {
      const before = await firingPointIn(tx, contest.id, id);
      const measured = await tx.shot.count({ where: { firingPointId: id, fixes: { some: {} } } });
      if (measured > 0)
        throw conflict(
          "already-measured",
          `Firing point ${before.number} has ${measured} measured ${measured === 1 ? "shot" : "shots"}, and their marks count from where it stands. Add a new firing point and place the machines there.`,
        );
      const { latitude, longitude, height = before.height, accuracy = before.accuracy } = move;
      const row = await tx.firingPoint.update({
        where: { id },
        data: { latitude, longitude, height, accuracy },
      });
      await book.append("firing-point-moved", id, {
        from: placeOf(before),
        to: placeOf(row),
      });
      return firingPointInfo(row);
    },
    { status: 200 },
  );
  return thenSheets(call.db, contest.id, written);
}

export async function addFeature(call: Call, slug: string, body: unknown): Promise<Reply<FeatureInfo>> {
  const feature = parse(featureRequest, body);
  const contest = await contestToLayOut(call, slug);
  const geometry = fitting(contest, feature.kind, feature.geometry);
  return committed(call, contest.id, { act: "feature", contest: contest.id, feature }, async (tx, book) => {
    const { kind, name, standOff, rule } = feature;
    mustKeepRule(kind, rule);
    const row = await tx.siteFeature.create({
      data: {
        id: newId(),
        contestId: contest.id,
        kind,
        name,
        geometry: JSON.stringify(geometry),
        standOff,
        rule,
      },
    });
    await book.append("feature-added", row.id, { kind, name, geometry, standOff, rule });
    return featureInfo(row);
  });
}

/** What it was before stays in the scorebook. Retiring is how a feature is taken off the map. */
export async function changeFeature(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<FeatureInfo>> {
  const change = parse(featureChange, body);
  const contest = await contestToLayOut(call, slug);
  return committed(
    call,
    contest.id,
    { act: "change-feature", id, change },
    async (tx, book) => {
      const before = await featureIn(tx, contest.id, id);
      const {
        name = before.name,
        standOff = before.standOff,
        rule = before.rule,
        retired = before.retired,
      } = change;
      mustKeepRule(before.kind, rule);
      const geometry = change.geometry
        ? JSON.stringify(fitting(contest, before.kind, change.geometry))
        : before.geometry;
      const row = await tx.siteFeature.update({
        where: { id },
        data: { name, standOff, rule, retired, geometry },
      });
      await book.append("feature-changed", id, { from: contents(before), to: contents(row) });
      if (geometry !== before.geometry) await retireConsentsAbout(tx, book, id);
      return featureInfo(row);
    },
    { status: 200 },
  );
}

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

function contents(row: {
  name: string;
  geometry: string;
  standOff: number | null;
  rule: string | null;
  retired: boolean;
}) {
  const { name, standOff, rule, retired } = row;
  return { name, standOff, rule, retired, geometry: JSON.parse(row.geometry) as unknown };
}

/** The geometry as it is kept. Refuses what cannot be meant: an outline that crosses itself, another continent. */
export function fitting(contest: ContestRow, kind: string, drawn: SiteGeometry): FeatureGeometry {
  const problem = geometryProblem(kind as FeatureKindName, drawn.type);
  if (problem) throw invalid("geometry.type", problem);
  const { geometry } = parse(z.object({ geometry: featureGeometrySchema }), { geometry: drawn });
  for (const [longitude, latitude] of linesOf(geometry).flat())
    mustBeNear(contest, { latitude, longitude }, "geometry.coordinates");
  return geometry;
}

export function mustBeNear(contest: ContestRow, point: GeoPoint, field: string): void {
  const { distance } = inverse(contest, point);
  if (distance > SITE_RADIUS)
    throw invalid(
      field,
      `This is ${Math.round(distance / 1000)} km from the site's middle. Check the sign, and that longitude and latitude are not swapped.`,
    );
}

type Place = Pick<FiringPointInfo, "latitude" | "longitude" | "height" | "accuracy">;
const placeOf = ({ latitude, longitude, height, accuracy }: Place): Place => ({
  latitude,
  longitude,
  height,
  accuracy,
});

export function firingPointInfo(row: FiringPointInfo): FiringPointInfo {
  const { id, number, name } = row;
  return { id, number, name, ...placeOf(row) };
}

export function featureInfo(row: {
  id: string;
  kind: string;
  name: string;
  geometry: string;
  standOff: number | null;
  rule: string | null;
  retired: boolean;
}): FeatureInfo {
  const { id, name, standOff, retired } = row;
  return {
    id,
    kind: row.kind as FeatureInfo["kind"],
    name,
    geometry: JSON.parse(row.geometry) as SiteGeometry,
    standOff,
    rule: row.rule as FeatureInfo["rule"],
    retired,
  };
}
