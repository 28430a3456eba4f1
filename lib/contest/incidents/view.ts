/** Incidents to read: the organiser's and the safety officer's alone. */
import type { IncidentInfo, IncidentPieceInfo, IncidentSummary } from "../../api/contracts";
import type { Database } from "../../db";
import type { Declaration, HazardRequest } from "../../throw";
import { layZone, stretched, zoneDistances } from "../../zones";
import { type ContestRow, contestBySlug } from "../find";
import { listClearance } from "../permits";
import { type Asker, mustBeAllowed } from "../roles";
import { groundOf } from "../stands";
import { touchedBy } from "../touched";
import { type Compared, factorFor, type Scene, zoneOf } from "./compare";
import {
  comparedIn,
  currentPieces,
  type IncidentRow,
  incidentIn,
  incidentRows,
  type PieceRow,
  type ReportRow,
  reportOf,
  sceneOf,
  TAKEN_BACK,
} from "./read";

const CAUTION =
  "The model says what it allows, never what happened. Hold the range until the cause is known; keep what is left of the machine as it lies. The safety officer, local codes and whoever investigates decide.";

export async function listIncidents(
  db: Database,
  actor: Asker,
  slug: string,
): Promise<{ incidents: IncidentSummary[] }> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see incidents", contest.id);
  const rows = await incidentRows(db, contest.id);
  return {
    incidents: await Promise.all(
      rows.map(async (row) => {
        const scene = await sceneOf(db, contest, reportOf(row));
        return summary(
          row,
          currentPieces(row.pieces).map((piece) => comparedIn(piece, scene)),
        );
      }),
    ),
  };
}

export async function readIncident(
  db: Database,
  actor: Asker,
  slug: string,
  id: string,
): Promise<IncidentInfo> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see incidents", contest.id);
  const row = await incidentIn(db, contest.id, id);
  const report = reportOf(row);
  const scene = await sceneOf(db, contest, report);
  const words = await db.incidentWords.findMany({
    where: { incidentId: id },
    orderBy: { sequence: "asc" },
    include: { badge: { select: { label: true } } },
  });
  const pieceList = row.pieces.map((piece) => pieceInfo(piece, scene));
  const current = new Set(currentPieces(row.pieces).map((piece) => piece.id));
  const counting = pieceList.filter((piece) => current.has(piece.id));
  const beyondModel = counting.some((each) => each.beyondModel);
  return {
    ...summary(row, counting),
    reports: row.reports.map(reportInfo),
    words: words.map(({ badge, ...word }) => ({
      id: word.id,
      kind: word.kind as IncidentInfo["words"][number]["kind"],
      name: word.name,
      text: word.text,
      keepUntil: word.keepUntil,
      erasedAt: word.erasedAt?.toISOString() ?? null,
      by: badge.label,
      createdAt: word.createdAt.toISOString(),
    })),
    stood: stoodInfo(report, scene),
    pieceList,
    needed: scene?.sheet
      ? await neededZone(db, contest, row.machineId, report, scene, factorFor(counting))
      : null,
    beyondModel,
    sameKind: await sameKind(db, actor, slug, contest.id, row),
    caution: CAUTION,
  };
}

/** `counting`: the places that count. */
function summary(row: IncidentRow, counting: readonly Pick<Compared, "outside">[]): IncidentSummary {
  const { id, number, machineId, machine } = row;
  return {
    ...reportInfo(reportOf(row)),
    id,
    number,
    machineId,
    machineName: machine.name,
    entrantNumber: machine.entrant.number,
    entrantName: machine.entrant.name,
    pieces: counting.length,
    outside: counting.filter(({ outside }) => outside).length,
  };
}

const reportInfo = ({ part, hurt, observedAt, witness, badge, sequence, createdAt }: ReportRow) => ({
  part: part as IncidentSummary["part"],
  hurt: hurt as IncidentSummary["hurt"],
  observedAt: observedAt.toISOString(),
  witness,
  by: badge.label,
  sequence,
  createdAt: createdAt.toISOString(),
});

function pieceInfo(piece: PieceRow, scene: Scene | null): IncidentPieceInfo {
  const { id, found, place, input, replacesId, replaced, observedAt, witness, badge, createdAt } = piece;
  const compared = input === null ? TAKEN_BACK : comparedIn({ found, place, input }, scene);
  return {
    id,
    found: found as IncidentPieceInfo["found"],
    place: place as IncidentPieceInfo["place"],
    fix: input === null ? null : JSON.parse(input),
    replacesId,
    replaced: replaced !== null,
    observedAt: observedAt.toISOString(),
    witness,
    by: badge.label,
    createdAt: createdAt.toISOString(),
    ...compared,
  };
}

type Outline = NonNullable<NonNullable<IncidentInfo["stood"]>["zone"]>;

function stoodInfo(report: ReportRow, scene: Scene | null): IncidentInfo["stood"] {
  const { revision, firingPoint, firingPointId, sheetId, sheet } = report;
  if (!scene || !revision || !firingPoint || !firingPointId) return null;
  const { place, sheet: result } = scene;
  const { policy } = sheet ? (JSON.parse(sheet.inputs) as HazardRequest) : { policy: null };
  return {
    revision: revision.number,
    kind: kindOf(revision.declared),
    firingPointId,
    firingPointNumber: firingPoint.number,
    ...place,
    sheetId,
    inputHash: sheet?.inputHash ?? null,
    margin: policy?.margin ?? null,
    exclusion: result && zoneDistances(result.exclusion, place.accuracy),
    reach: result?.exclusion.reach ?? null,
    zone: result && (stretched(zoneOf(place, result), 1) as Outline),
  };
}

const kindOf = (declared: string) => (JSON.parse(declared) as Declaration).machine.kind;

/** All of the reach longer by the same factor: what was wrong ahead may be as wrong behind. */
async function neededZone(
  db: Database,
  contest: ContestRow,
  machineId: string,
  { firingPointId }: ReportRow,
  { place, sheet }: Scene,
  factor: number | null,
): Promise<IncidentInfo["needed"]> {
  if (!sheet || factor === null || factor <= 1) return null;
  const [{ features, site }, machines, points] = await Promise.all([
    groundOf(db, contest),
    db.machine.findMany({ where: { contestId: contest.id, firingPointId: { not: null } } }),
    db.firingPoint.findMany({ where: { contestId: contest.id, retired: false } }),
  ]);
  const outline = stretched(zoneOf(place, sheet), factor);
  const { forward, backward, side } = sheet.exclusion;
  const longer = { forward: forward * factor, backward: backward * factor, side: side * factor };
  return {
    factor,
    exclusion: zoneDistances(longer, place.accuracy),
    zone: outline as Outline,
    ...touchedBy(
      layZone(site, outline),
      { id: machineId, firingPointId },
      { site, features: new Map(features.map((feature) => [feature.id, feature])), points, machines },
    ),
  };
}

/** The other machines of its kind that take part, with how far their permits stand. */
async function sameKind(
  db: Database,
  actor: Asker,
  slug: string,
  contestId: string,
  row: IncidentRow,
): Promise<IncidentInfo["sameKind"]> {
  const declared = reportOf(row).revision?.declared;
  if (!declared) return [];
  const kind = kindOf(declared);
  const revisions = await db.machineRevision.findMany({
    where: { machine: { contestId, retired: false, id: { not: row.machineId } } },
    orderBy: { number: "asc" },
    select: { machineId: true, declared: true },
  });
  const newest = new Map(revisions.map((each) => [each.machineId, each.declared]));
  const { machines } = await listClearance(db, actor, slug);
  return machines
    .filter(({ machineId }) => kindOf(newest.get(machineId) ?? declared) === kind && newest.has(machineId))
    .map(({ machineId, machineName, entrantNumber, entrantName, permit }) => ({
      machineId,
      machineName,
      entrantNumber,
      entrantName,
      permit: permit?.state ?? null,
      permitNumber: permit?.number ?? null,
    }));
}
