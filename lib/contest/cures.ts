/**
 * For a machine whose zone touches what it must not: what would cure it, cheapest first. Every cure that is answered
 * was held, with its own official sheet, against every feature; none is ever applied by itself.
 */
import type { Polygon } from "geojson";
import { CURE_KINDS, type Cure, type Cures, curesQuery, type SiteGeometry } from "../api/contracts";
import type { Database } from "../db";
import { groundDistance } from "../earth";
import type { HazardSheet } from "../throw";
import {
  broken,
  type Conflict,
  CURE_COSTS,
  clearBearings,
  clearOn,
  cureCost,
  DIRECTIONS,
  MOVABLE,
  moveAway,
  shiftTo,
  standZone,
  type Turn,
  turnsTo,
  wallBefore,
} from "../zones";
import type { StandingBarrier } from "./barriers";
import { parse } from "./errors";
import { blockersOf, strengthInfo, strengthOf, testStrengths } from "./fit";
import type { Asker } from "./roles";
import {
  allMachines,
  type GroundFeature,
  mustBeWanted,
  openReach,
  type Place,
  type PointRow,
  reachAnyWay,
  type Standing,
  sheetAt,
  standing,
} from "./stands";

type Without = Cures["without"][number];
/** Cures of one kind, or why there is none. */
type Found = Cure[] | string;

interface Options {
  /** Called with rising shares of the work, 0 to 1. */
  onProgress?: (done: number) => void;
  signal?: AbortSignal | undefined;
}

/** What the quick searches are of the work; the rest are official sheets of weaker machines. */
const QUICK = 0.2;

/** Organisers and safety officers. Throws as `standing` does, and 503 when too many ask. */
export async function machineCures(
  db: Database,
  actor: Asker,
  slug: string,
  query: unknown,
  { onProgress = () => {}, signal }: Options = {},
): Promise<Cures> {
  const at = await standing(db, actor, slug, parse(curesQuery, query));
  const found = broken(at.site, zoneOf(at, at.sheet));
  const cures: Cure[] = [];
  const without: Without[] = [];
  const searches: [Without["kind"], () => Promise<Found>][] = [
    ["turn", () => turns(at)],
    ["point", () => points(db, at)],
    ["shift", () => shifts(at)],
    ["crowd", () => crowd(db, at, found)],
    ["barrier", () => behindWall(at, found)],
    ["strength", () => weaker(at, (done) => onProgress(QUICK + (1 - QUICK) * done), signal)],
  ];
  for (const [index, [kind, search]] of (found.length > 0 ? searches : []).entries()) {
    mustBeWanted(signal);
    // Between two searches others are served.
    await new Promise((resolve) => setImmediate(resolve));
    const answer = await search();
    if (typeof answer === "string") without.push({ kind, reason: answer });
    else cures.push(...answer);
    onProgress(Math.max(QUICK * ((index + 1) / (searches.length - 1)), 0));
  }
  const names = new Map(at.features.map(({ id, name }) => [id, name]));
  return {
    machineId: at.machine.id,
    machineName: at.machine.name,
    revision: at.revision.number,
    firingPointId: at.point.id,
    bearing: at.bearing,
    conflicts: found.map((each) => ({
      featureId: each.featureId,
      name: names.get(each.featureId) ?? "",
      kind: each.kind,
      touches: each.touches,
      distance: each.distance,
      standOff: each.standOff,
      overlapArea: each.overlapArea,
      overlapLength: each.overlapLength,
    })),
    cures: cures.sort((first, second) => first.cost - second.cost),
    without,
    costs: CURE_KINDS.map((kind) => ({ kind, ...CURE_COSTS[kind] })),
  };
}

const zoneOf = ({ point, bearing }: Place, sheet: HazardSheet): Polygon =>
  standZone(point, bearing, sheet.exclusion.reach);

const drawn = (zone: Polygon) => zone as Cure["zone"];

/** The machine as it is, at another place: proven with that place's own sheet, or null. */
async function proven(at: Standing, place: Place) {
  const sheet = await sheetAt(at, at.declaration, place).catch((error: Error) => {
    if (error.name === "EngineRefusal") return null;
    throw error;
  });
  if (!sheet) return null;
  const zone = zoneOf(place, sheet);
  if (broken(at.site, zone).length > 0) return null;
  return {
    nominalBefore: at.sheet.nominal?.distance ?? null,
    nominalAfter: sheet.nominal?.distance ?? null,
    zone: drawn(zone),
  };
}

/** Nearest clear bearings either way at a point, before they are proven. */
async function turnsAt(at: Standing, point: PointRow): Promise<Turn[]> {
  const reach = await reachAnyWay(at, [point]);
  const isClear = clearOn(at.site);
  const { clear } = clearBearings(point, reach, at.features);
  return turnsTo(clear, at.bearing, (bearing) => isClear(standZone(point, bearing, reach)));
}

async function turns(at: Standing): Promise<Found> {
  const cures: Cure[] = [];
  for (const { bearing, turn } of await turnsAt(at, at.point)) {
    const proof = await proven(at, { point: at.point, bearing });
    if (proof) cures.push({ kind: "turn", cost: cureCost("turn", turn), turn, bearing, ...proof });
  }
  return cures.length > 0 ? cures : "No bearing is clear at this firing point.";
}

/** Most firing points that are offered. */
const FEW = 3;

async function points(db: Database, at: Standing): Promise<Found> {
  const free = await db.firingPoint.findMany({
    where: { contestId: at.contest.id, retired: false, machines: { none: {} }, NOT: { id: at.point.id } },
  });
  if (free.length === 0) return "No firing point is free.";
  const cures: Cure[] = [];
  for (const point of free) {
    const isClear = clearOn(at.site);
    const straight = isClear(standZone(point, at.bearing, openReach(at.sheet)));
    const [nearest] = straight ? [{ bearing: at.bearing, turn: 0 }] : await turnsAt(at, point);
    const proof = nearest && (await proven(at, { point, bearing: nearest.bearing }));
    if (!proof) continue;
    const distance = groundDistance(at.point, point, point.height);
    const cost = cureCost("point", distance) + CURE_COSTS.turn.each * Math.abs(nearest.turn);
    cures.push({
      kind: "point",
      cost,
      firingPointId: point.id,
      firingPointNumber: point.number,
      distance,
      ...nearest,
      ...proof,
    });
  }
  cures.sort((first, second) => first.cost - second.cost);
  return cures.length > 0 ? cures.slice(0, FEW) : "It has no clear bearing at any free firing point.";
}

async function shifts(at: Standing): Promise<Found> {
  const isClear = clearOn(at.site);
  const cures: Cure[] = [];
  for (const direction of DIRECTIONS) {
    const shift = shiftTo(direction, at.point, at.bearing, openReach(at.sheet), isClear);
    const proof =
      shift && (await proven(at, { point: { ...at.point, ...shift.stand }, bearing: at.bearing }));
    if (!shift || !proof) continue;
    const { distance, stand } = shift;
    const place = { latitude: stand.latitude, longitude: stand.longitude };
    cures.push({ kind: "shift", cost: cureCost("shift", distance), direction, distance, place, ...proof });
  }
  return cures.length > 0 ? cures : "No step to the left, to the right, ahead or back is enough.";
}

/** All that is touched, moved out of this zone and of every other of the day. */
async function crowd(db: Database, at: Standing, found: readonly Conflict[]): Promise<Found> {
  const touched = blockersOf(found, at.features);
  const fixed = touched.find(({ kind }) => !(MOVABLE as readonly string[]).includes(kind));
  if (fixed) return `${fixed.name} cannot be moved.`;
  const zone = zoneOf(at, at.sheet);
  const others = (await allMachines(db, at.contest, at.given)).flatMap(({ machine, place, sheet }) =>
    machine.id !== at.machine.id && place && sheet.sheet ? [zoneOf(place, sheet.sheet)] : [],
  );
  const moves: (Cure & { kind: "crowd" })["moves"] = [];
  for (const feature of touched) {
    const row = at.features.find(({ id }) => id === feature.featureId) as GroundFeature;
    // Moved, it is protected as its kind is until the safety officer allows less again.
    const move = moveAway(at.site, { ...row, allowance: null }, [zone, ...others], at.point);
    if (!move) return `${feature.name} would have to move farther than was looked for.`;
    moves.push({ ...feature, ...move, geometry: move.geometry as SiteGeometry });
  }
  const nominal = at.sheet.nominal?.distance ?? null;
  const cost = moves.reduce((sum, { distance }) => sum + cureCost("crowd", distance), 0);
  return [{ kind: "crowd", cost, nominalBefore: nominal, nominalAfter: nominal, zone: drawn(zone), moves }];
}

/** Heights of barriers that are tried, m. */
const WALLS = [2, 3, 4, 6, 8] as const;
const HIGHEST = 8;

/** A barrier before what is touched: only the safety officer can sign for it. */
async function behindWall(at: Standing, found: readonly Conflict[]): Promise<Found> {
  const touched = found.flatMap(({ featureId, standOff }) => {
    const feature = at.features.find(({ id }) => id === featureId);
    return feature ? [{ geometry: feature.geometry, standOff }] : [];
  });
  const wall = wallBefore(touched, at.point, at.bearing, openReach(at.sheet));
  if (!wall) return "It would have to stand in the machine's own way, or go round it.";
  const line = { type: "LineString" as const, coordinates: wall.line };
  const clearBehind = async (height: number): Promise<Polygon | null> => {
    const sheet = await sheetAt(behind(at, line, height), at.declaration, at);
    const zone = zoneOf(at, sheet);
    return broken(at.site, zone).length === 0 ? zone : null;
  };
  // What passes over the highest passes over the others too.
  if (!(await clearBehind(HIGHEST)))
    return `Throws, or thrown pieces, pass over one of ${HIGHEST} m before it.`;
  const nominal = at.sheet.nominal?.distance ?? null;
  for (const height of WALLS) {
    const zone = await clearBehind(height);
    if (!zone) continue;
    const { length, distance } = wall;
    const cost = cureCost("barrier", length * height);
    const same = { nominalBefore: nominal, nominalAfter: nominal, zone: drawn(zone) };
    return [{ kind: "barrier", cost, ...same, line, length, height, distance }];
  }
  return "None of the tried heights is enough.";
}

/** As it stands, with a barrier that nobody has signed for. */
function behind(at: Standing, geometry: StandingBarrier["geometry"], height: number): Standing {
  // Another declaration object, so that the sheet at hand is not taken for this one's.
  const given = { ...at.given, barriers: [...at.given.barriers, { name: "", geometry, height }] };
  return { ...at, declaration: { ...at.declaration }, given };
}

async function weaker(
  at: Standing,
  onProgress: (done: number) => void,
  signal: AbortSignal | undefined,
): Promise<Found> {
  const strength = strengthOf(at.declaration.machine);
  const tested = await testStrengths(at, strength, { stronger: false, onProgress, signal });
  const largest = tested.find(({ fits }) => fits);
  if (!largest?.sheet)
    return "None of the tested values fits; how far it reaches may not be for its strength alone.";
  const before = at.sheet.nominal?.distance ?? null;
  const after = largest.nominal;
  // Where nothing is thrown as meant, the zone forward stands in for it.
  const [had, has] =
    before && after !== null
      ? [before, after]
      : [at.sheet.exclusion.forward, largest.sheet.exclusion.forward];
  const cost = cureCost("strength", Math.max(0, 100 * (1 - has / had)));
  const zone = drawn(zoneOf(at, largest.sheet));
  return [
    {
      kind: "strength",
      cost,
      nominalBefore: before,
      nominalAfter: after,
      zone,
      strength: strengthInfo(strength),
      value: largest.value,
    },
  ];
}
