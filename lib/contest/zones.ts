/** Keep-out zones of every placed machine, and what they touch. Open to all: they are for whoever walks there. */
import type { SiteGeometry, ZoneProperties, Zones } from "../api/contracts";
import type { Database } from "../db";
import { conflicts, reachPolygon } from "../zones";
import { type ContestRow, contestBySlug, policyOf } from "./find";
import { featureInfo } from "./layout";
import { machineInfo } from "./machines";
import { type Circumstances, circumstancesOf, type SheetMachine, sheetOf } from "./sheets";

/** Stands beside every zone. */
export const CAUTION =
  "Computed from what the teams declared and the policy of the safety officer. Failures may go farther than any zone drawn here. The safety officer and local codes decide who may stand where.";

type Feature = Zones["features"][number];

/**
 * GeoJSON of every placed machine's zone with its labels, conflicts and assumptions. Waits up to `wait` ms for sheets
 * that are missing; a zone whose sheet is not there by then has no geometry and says so.
 */
export async function contestZones(db: Database, slug: string, { wait = 4000 } = {}): Promise<Zones> {
  const contest = await contestBySlug(db, slug);
  const [machines, rows] = await Promise.all([
    db.machine.findMany({
      where: { contestId: contest.id, firingPointId: { not: null }, bearing: { not: null } },
      include: { entrant: true, firingPoint: true, revisions: { orderBy: { number: "desc" }, take: 1 } },
      orderBy: [{ entrant: { number: "asc" } }, { name: "asc" }],
    }),
    db.siteFeature.findMany({ where: { contestId: contest.id, retired: false }, orderBy: { name: "asc" } }),
  ]);
  const features = rows.map(featureInfo);
  const circumstances = await circumstancesOf(db, contest);
  const zones = await Promise.all(
    machines.map((machine) => zoneOf(db, contest, machine, features, wait, circumstances)),
  );
  return {
    type: "FeatureCollection",
    features: zones.flatMap((zone) => zone ?? []),
    caution: CAUTION,
    policy: policyOf(contest),
    air: circumstances.air,
    firingPointIds: [...new Set(machines.flatMap((machine) => machine.firingPointId ?? []))],
    featureIds: features.map((feature) => feature.id),
  };
}

type PlacedMachine = Parameters<typeof machineInfo>[0] & {
  entrant: { number: number; name: string };
  firingPoint: (NonNullable<SheetMachine["firingPoint"]> & { id: string; number: number }) | null;
  revisions: {
    id: string;
    number: number;
    declared: string;
    machineId: string;
    note: string;
    createdAt: Date;
  }[];
};
type Drawn = {
  id: string;
  kind: ReturnType<typeof featureInfo>["kind"];
  name: string;
  geometry: SiteGeometry;
  standOff: number | null;
};

async function zoneOf(
  db: Database,
  contest: ContestRow,
  machine: PlacedMachine,
  features: readonly Drawn[],
  wait: number,
  circumstances: Circumstances,
): Promise<Feature | null> {
  const { firingPoint, bearing } = machine;
  if (!firingPoint || bearing === null) return null;
  const { state, reason, sheetId, sheet, given } = await sheetOf(db, contest, machine, wait, circumstances);
  const geometry = sheet && reachPolygon(firingPoint, bearing, sheet.exclusion.reach, firingPoint.height);
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
    nominal: sheet?.nominal?.distance ?? null,
    worst: sheet && { forward: sheet.worst.forward.distance, backward: sheet.worst.backward.distance },
    exclusion: sheet && {
      forward: sheet.exclusion.forward,
      backward: sheet.exclusion.backward,
      side: sheet.exclusion.side,
    },
    apex: sheet?.apex ?? null,
    conflicts: geometry ? conflictsOf(geometry, features, firingPoint.height) : [],
    assumptions: sheet ? [...given, ...sheet.assumptions] : [],
    warnings: sheet?.warnings ?? [],
    notModelled: sheet?.notModelled ?? [],
  };
  return { type: "Feature", id: machine.id, geometry: geometry as Feature["geometry"], properties };
}

/** Of every feature: those against the rule first, then the nearest. */
function conflictsOf(
  zone: ReturnType<typeof reachPolygon>,
  features: readonly Drawn[],
  height: number,
): ZoneProperties["conflicts"] {
  const names = new Map(features.map((feature) => [feature.id, feature.name]));
  return conflicts(zone, features, height)
    .map((found) => ({
      ...found,
      name: names.get(found.featureId) ?? "",
      overlap: found.overlap as ZoneProperties["conflicts"][number]["overlap"],
    }))
    .sort((a, b) => Number(b.inConflict) - Number(a.inConflict) || a.distance - b.distance);
}
