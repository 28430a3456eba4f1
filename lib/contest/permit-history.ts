/** What the scorebook has that may make a firing permit fall: every act that does is a line here. */
import { type Database, type DatabaseTransaction, rowsOf } from "../db";
import type { Happened, Wind } from "../inspection";
import type { ScorebookAct } from "./scorebook";

/** Null: it concerns every machine. */
export type Concerned = { machineId: string } | { firingPointId: string } | null;
export type Told = { sequence: number; happened: Happened; concerns: Concerned };

interface Entry {
  subjectId: string;
  at: Date;
  body: Record<string, unknown>;
}
type Reader = (entry: Entry) => [Happened, Concerned];

const ofContest =
  (what: "policy" | "air"): Reader =>
  ({ at }) => [{ what, at }, null];

const incident: Reader = ({ at, body }) => [{ what: "incident", at }, { machineId: body.machine as string }];

const READERS: Partial<Record<ScorebookAct, Reader>> = {
  "policy-set": ofContest("policy"),
  "air-set": ofContest("air"),
  "wind-read": ({ at, body }) => [
    { what: "wind", at, wind: body as unknown as Wind, expiresAt: new Date(body.expiresAt as string) },
    null,
  ],
  "revision-declared": ({ at, body }) => [
    { what: "revision", at, number: body.number as number },
    { machineId: body.machine as string },
  ],
  "machine-placed": ({ at, subjectId, body }) => {
    const { firingPoint, bearing } = body.to as { firingPoint: string | null; bearing: number | null };
    return [{ what: "placed", at, firingPointId: firingPoint, bearing }, { machineId: subjectId }];
  },
  "machine-changed": ({ at, subjectId, body }) => {
    const { retired, ...place } = body.to as {
      retired: boolean;
      firingPoint: string | null;
      bearing: number | null;
    };
    return [
      retired
        ? { what: "retired", at }
        : { what: "placed", at, firingPointId: place.firingPoint, bearing: place.bearing },
      { machineId: subjectId },
    ];
  },
  "firing-point-moved": ({ at, subjectId }) => [
    { what: "firing-point-moved", at },
    { firingPointId: subjectId },
  ],
  "machine-inspected": ({ at, body }) => [
    { what: "inspection", at, outcome: body.outcome as string },
    { machineId: body.machine as string },
  ],
  "permit-signed": ({ at, body }) => [
    { what: "signed", at, number: body.number as number },
    { machineId: body.machine as string },
  ],
  "permit-withdrawn": ({ at, body }) => [
    { what: "withdrawn", at, reason: body.reason as string },
    { machineId: body.machine as string },
  ],
  "incident-entered": incident,
  // What comes to light after another signature makes that fall too.
  "incident-added": incident,
  "alarm-raised": ({ at, body }) => [
    { what: "alarm", at, beyondWorst: body.verdict === "model-wrong" },
    { machineId: body.machine as string },
  ],
};

type Row = { sequence: number; act: string; subjectId: string; body: string; createdAt: Date };
const ACTS_READ = Object.keys(READERS);

/** Of a contest after one of its entries, in order. */
export async function toldSince(db: Database, contestId: string, sequence: number): Promise<Told[]> {
  const rows = await db.scorebookEntry.findMany({
    where: { contestId, sequence: { gt: sequence }, act: { in: ACTS_READ } },
    orderBy: { sequence: "asc" },
    select: { sequence: true, act: true, subjectId: true, body: true, createdAt: true },
  });
  return rows.map(told);
}

/** The same inside the transaction of a judge's entry, past the client. */
export async function toldBeforeEntry(
  tx: DatabaseTransaction,
  contestId: string,
  sequence: number,
): Promise<Told[]> {
  const rows = await rowsOf<Row>(
    tx,
    `SELECT "sequence", "act", "subjectId", "body", "createdAt" FROM "ScorebookEntry" WHERE "contestId" = ? AND ` +
      `"sequence" > ? AND "act" IN (${ACTS_READ.map(() => "?").join(", ")}) ORDER BY "sequence"`,
    contestId,
    sequence,
    ...ACTS_READ,
  );
  return rows.map(told);
}

function told({ sequence, act, subjectId, body, createdAt }: Row): Told {
  const read = READERS[act as ScorebookAct] as Reader;
  const [happened, concerns] = read({ subjectId, at: createdAt, body: JSON.parse(body) });
  return { sequence, happened, concerns };
}

/** Those that concern a permit. */
export const concerning = (
  all: readonly Told[],
  permit: { sequence: number; machineId: string; firingPointId: string },
): Happened[] =>
  all.flatMap(({ sequence, happened, concerns }) =>
    sequence > permit.sequence &&
    (concerns === null ||
      ("machineId" in concerns
        ? concerns.machineId === permit.machineId
        : concerns.firingPointId === permit.firingPointId))
      ? happened
      : [],
  );
