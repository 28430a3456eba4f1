/** Keep-out zones of every placed machine, and what they touch. Open to all: they are for whoever walks there. */
import type { ZoneProperties, Zones } from "../api/contracts";
import { lackOfSheet } from "../api/contracts/machines";
import type { Database } from "../db";
import { dayZone, type LaidZone, layZone, reachPolygon } from "../zones";
import { daysOf } from "./days";
import { type ContestRow, contestBySlug, machinesWhere, policyOf } from "./find";
import { machineInfo } from "./machines";
import { type Circumstances, sheetOf } from "./sheets";
import { groundOf, type PointRow } from "./stands";
import { type Around, numbersOf, touchedBy } from "./touched";

/** Stands beside every zone. */
export const CAUTION =
  "Computed from what the teams declared and the policy of the safety officer. Failures may go farther than any zone drawn here. The safety officer and local codes decide who may stand where.";

type Feature = Zones["features"][number];

/**
 * GeoJSON of every placed machine's zone with its labels, conflicts, stand-clear list and assumptions, and of all zones
 * together. Waits up to `wait` ms for sheets that are missing; a zone whose sheet is not there by then has no geometry
 * and says so.
 */
export async function contestZones(db: Database, slug: string, { wait = 4000 } = {}): Promise<Zones> {
  const contest = await contestBySlug(db, slug);
  const [machines, points, { features, site, given }] = await Promise.all([
    machinesWhere(db, { contestId: contest.id, firingPointId: { not: null }, bearing: { not: null } }),
    db.firingPoint.findMany({ where: { contestId: contest.id, retired: false }, orderBy: { number: "asc" } }),
    groundOf(db, contest),
  ]);
  const around: Around = {
    site,
    features: new Map(features.map((feature) => [feature.id, feature])),
    points,
    machines,
  };
  const zones = await Promise.all(
    machines.map((machine) => zoneOf(db, contest, machine, { around, given, wait })),
  );
  const drawn = zones.flatMap((zone) => zone ?? []);
  return {
    type: "FeatureCollection",
    features: drawn.map(({ feature }) => feature),
    without: drawn
      .filter(({ feature }) => feature.geometry === null)
      .map(({ feature: { properties } }) => {
        const { machineId, machineName, state } = properties;
        return { machineId, machineName, state, reason: lackOfSheet(properties) };
      }),
    caution: CAUTION,
    policy: policyOf(contest),
    air: given.air,
    day: contest.date,
    lastDay: daysOf(contest).last,
    union: dayZone(
      site,
      drawn.flatMap(({ zone }) => zone ?? []),
    ) as Zones["union"],
    highest: highestOf(drawn.map(({ feature }) => feature.properties)),
    firingPointIds: [...new Set(machines.flatMap((machine) => machine.firingPointId ?? []))],
    featureIds: features.map((feature) => feature.id),
  };
}

function highestOf(zones: readonly ZoneProperties[]): Zones["highest"] {
  let highest: Zones["highest"] = null;
  for (const { machineId, machineName, apex, top } of zones)
    if (apex !== null && top !== null && top > (highest?.top ?? Number.NEGATIVE_INFINITY))
      highest = { machineId, machineName, apex, top };
  return highest;
}

type PlacedMachine = Parameters<typeof machineInfo>[0] & {
  entrant: { number: number; name: string };
  firingPoint: PointRow | null;
  revisions: {
    id: string;
    number: number;
    declared: string;
    machineId: string;
    note: string;
    createdAt: Date;
  }[];
};

async function zoneOf(
  db: Database,
  contest: ContestRow,
  machine: PlacedMachine,
  { around, given, wait }: { around: Around; given: Circumstances; wait: number },
): Promise<{ feature: Feature; zone: LaidZone | null } | null> {
  const { firingPoint, bearing } = machine;
  if (!firingPoint || bearing === null) return null;
  const answer = await sheetOf(db, contest, machine, wait, given);
  const { state, reason, sheetId, sheet } = answer;
  const { height, accuracy } = firingPoint;
  const geometry = sheet && reachPolygon(firingPoint, bearing, sheet.exclusion.reach, height, accuracy);
  const zone = geometry && layZone(around.site, geometry);
  const properties: ZoneProperties = {
    machineId: machine.id,
    machineName: machine.name,
    kind: machineInfo(machine).kind,
    entrantId: machine.entrantId,
    entrantNumber: machine.entrant.number,
    entrantName: machine.entrant.name,
    firingPointId: firingPoint.id,
    firingPointNumber: firingPoint.number,
    bearing,
    revision: machine.revisions[0]?.number ?? null,
    state,
    reason,
    sheetId,
    accuracy,
    ...numbersOf(sheet, height),
    ...(zone ? touchedBy(zone, machine, around) : { conflicts: [], standClear: [] }),
    assumptions: sheet ? [...answer.given, ...sheet.assumptions] : [],
  };
  const feature: Feature = {
    type: "Feature",
    id: machine.id,
    geometry: geometry as Feature["geometry"],
    properties,
  };
  return { feature, zone };
}
