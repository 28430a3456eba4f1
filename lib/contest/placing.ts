/** Where each machine may stand and aim: clear bearings, a plan for all of them, and putting a plan into effect. */
import {
  type ClearBearings,
  clearBearingsQuery,
  type Placing,
  type PlacingMachine,
  placingRequest,
} from "../api/contracts";
import type { Database } from "../db";
import { type BearingArc, clearBearings } from "../zones";
import { conflict, invalid, parse } from "./errors";
import { contestBySlug, machineIn } from "./find";
import { blockersOf } from "./fit";
import { type MachineInfo, putAt } from "./machines";
import { type Asker, mustBeAllowed } from "./roles";
import { computeMissingSheets } from "./sheets";
import { allMachines, groundOf, openReach, type Placed, reachAnyWay, standing } from "./stands";
import { type Call, committed, type Reply } from "./write";

/** On which bearings a machine's zone touches nothing it must not, and what is in the way of the others. */
export async function machineClearBearings(
  db: Database,
  actor: Asker,
  slug: string,
  query: unknown,
): Promise<ClearBearings> {
  const at = await standing(db, actor, slug, parse(clearBearingsQuery, query));
  const reach = await reachAnyWay(at, [at.point]);
  const { clear, blocked } = clearBearings(at.point, reach, at.features);
  return {
    machineId: at.machine.id,
    firingPointId: at.point.id,
    clear: clear.map(clockwise),
    reach,
    blocked: blocked.map(({ by, ...arc }) => ({
      ...clockwise(arc),
      by: blockersOf(
        by.map((featureId) => ({ featureId })),
        at.features,
      ),
    })),
  };
}

/** An arc across north runs on past 360. */
const clockwise = ({ from, to }: BearingArc): BearingArc => ({ from, to: to < from ? to + 360 : to });

/** Every machine with where it stands and how far it reaches, to try places on a map. */
export async function placingDesk(db: Database, actor: Asker, slug: string): Promise<Placing> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "place a machine", contest.id);
  const { given, features } = await groundOf(db, contest);
  return {
    machines: (await allMachines(db, contest, given)).map(machineOf),
    agreements: features.flatMap(({ id, agreement }) =>
      agreement ? [{ featureId: id, expiresOn: agreement.expiresOn }] : [],
    ),
  };
}

function machineOf({ machine, sheet }: Placed): PlacingMachine {
  const { id, name, entrant, firingPointId, bearing, pinned } = machine;
  return {
    machineId: id,
    machineName: name,
    entrantNumber: entrant.number,
    entrantName: entrant.name,
    firingPointId,
    bearing,
    pinned,
    state: sheet.state,
    reason: sheet.reason,
    reach: sheet.sheet && openReach(sheet.sheet),
  };
}

/** All placements of a plan or none, each with its entry in the scorebook. Whoever was moved since refuses the whole. */
export async function applyPlacing(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<{ machines: MachineInfo[] }>> {
  const { placements } = parse(placingRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "place a machine", contest.id);
  const twice = placements.findIndex(
    ({ machineId }, index) => placements.findIndex((each) => each.machineId === machineId) !== index,
  );
  if (twice >= 0)
    throw invalid(`placements.${twice}.machineId`, "This machine stands twice in the plan: name it once.");
  const reply = await committed(
    call,
    contest.id,
    { act: "placing", contest: contest.id, placements },
    async (tx, book) => {
      const machines: MachineInfo[] = [];
      for (const [index, { machineId, from, to }] of placements.entries()) {
        const before = await machineIn(tx, contest.id, machineId);
        const same =
          before.firingPointId === (from?.firingPointId ?? null) &&
          (from === null || before.bearing === from.bearing);
        if (!same || before.pinned)
          throw conflict(
            "placed-meanwhile",
            before.pinned
              ? `${before.name} has been pinned where it is. Ask for a new plan.`
              : `${before.name} has been placed by somebody else since this plan was made. Ask for a new one.`,
            { errors: [{ field: `placements.${index}.from`, message: "It stands elsewhere by now." }] },
          );
        machines.push(await putAt(tx, book, contest.id, machineId, to));
      }
      return { machines };
    },
    { status: 200 },
  );
  computeMissingSheets(call.db, contest.id);
  return reply;
}
