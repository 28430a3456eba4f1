/** An incident as it is kept, with its places held against the sheet of its newest report. */
import type { Database, DatabaseTransaction } from "../../db";
import type { Fix } from "../../survey";
import type { HazardSheet } from "../../throw";
import { notFound } from "../errors";
import type { ContestRow } from "../find";
import { pegOf } from "../judging";
import { type Compared, comparePiece, type Scene, type StoodPlace } from "./compare";
import type { Stood } from "./stood";

type Reader = Database | DatabaseTransaction;

const WHOLE = {
  machine: { include: { entrant: true } },
  reports: {
    orderBy: { sequence: "desc" },
    include: {
      badge: { select: { label: true } },
      revision: { select: { number: true, declared: true } },
      firingPoint: { select: { number: true } },
      sheet: { select: { result: true, inputs: true, inputHash: true } },
    },
  },
  pieces: {
    orderBy: { sequence: "asc" },
    include: { badge: { select: { label: true } }, replaced: { select: { id: true } } },
  },
} as const;

const findIncidents = (db: Reader, where: { contestId: string; id?: string }) =>
  db.incident.findMany({ where, orderBy: { number: "desc" }, include: WHOLE });
export type IncidentRow = Awaited<ReturnType<typeof findIncidents>>[number];
export type ReportRow = IncidentRow["reports"][number];
export type PieceRow = IncidentRow["pieces"][number];

export const incidentRows = (db: Reader, contestId: string): Promise<IncidentRow[]> =>
  findIncidents(db, { contestId });

/** Throws 404. */
export async function incidentIn(db: Reader, contestId: string, id: string): Promise<IncidentRow> {
  const [row] = await findIncidents(db, { contestId, id });
  if (!row) throw notFound("incident");
  return row;
}

/** The report that counts. */
export const reportOf = ({ reports }: Pick<IncidentRow, "reports">): ReportRow => reports[0] as ReportRow;

/** Null where the machine stood at no firing point. */
export function placeOf(stood: Stood): StoodPlace | null {
  const { latitude, longitude, height, accuracy, bearing } = stood;
  return latitude === null || longitude === null || height === null || accuracy === null || bearing === null
    ? null
    : { latitude, longitude, height, accuracy, bearing };
}

export async function sceneOf(
  db: Reader,
  { id: contestId, declination }: Pick<ContestRow, "id" | "declination">,
  stood: Stood & { sheet?: { result: string } | null },
): Promise<Scene | null> {
  const place = placeOf(stood);
  if (!place) return null;
  const [pegs, sheet] = await Promise.all([
    db.controlPoint.findMany({ where: { contestId } }),
    stood.sheet ??
      (stood.sheetId ? db.hazardSheet.findUniqueOrThrow({ where: { id: stood.sheetId } }) : null),
  ]);
  return {
    place,
    sheet: sheet && (JSON.parse(sheet.result) as HazardSheet),
    pegs: Object.fromEntries(pegs.map((peg) => [peg.id, pegOf(peg)])),
    declination,
  };
}

/** What counts: the last of each chain of corrections, unless it was taken back. */
export const currentPieces = (pieces: readonly PieceRow[]): (PieceRow & { input: string })[] =>
  pieces.filter((piece): piece is PieceRow & { input: string } => !piece.replaced && piece.input !== null);

/** Of a place that nothing can be held against: it counts as outside. */
const NOWHERE: Compared = {
  latitude: null,
  longitude: null,
  uncertainty: null,
  zone: null,
  outside: true,
  foreseen: null,
  beyondModel: false,
  warnings: [
    "The machine stood at no firing point then, as far as this program knows: nothing can be held against its zone.",
  ],
};

/** One that was taken back says where nothing came down. */
export const TAKEN_BACK: Compared = { ...NOWHERE, outside: false, warnings: [] };

/** `scene`: null where the machine stood nowhere. */
export const comparedIn = (
  { found, place, input }: { found: string; place: string; input: string },
  scene: Scene | null,
): Compared =>
  scene
    ? comparePiece({ found, place } as Parameters<typeof comparePiece>[0], JSON.parse(input) as Fix, scene)
    : NOWHERE;
