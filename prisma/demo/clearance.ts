/** How far the demo's machines have come before the third round: inspected, permitted, one refused, one permit taken back. */
import {
  type Call,
  inspectMachine,
  machinePage,
  type Reply,
  signPermit,
  withdrawPermit,
} from "../../lib/contest";
import { type Finding, linesFor, widestLimits } from "../../lib/inspection";
import { defaultPolicy } from "../../lib/throw";
import { AIR } from "./content";

interface Found {
  /** Lines that do not simply meet it. */
  lines: Record<string, { finding: Finding; note: string }>;
  outcome: "meets" | "meets-with-limits" | "refused";
  limits: string;
}

const PLAIN: Found = { lines: {}, outcome: "meets", limits: "" };

/** By entrant number. */
const FOUND: Record<number, Found> = {
  2: {
    lines: {
      winch: { finding: "limit", note: "Ratchet holds only with its pawl tied down: tie it each time." },
    },
    outcome: "meets-with-limits",
    limits: "The winch's pawl is tied down before anybody goes under the arm.",
  },
  8: {
    lines: {
      trigger: { finding: "fails", note: "Lets go when the frame is struck with a mallet." },
      guards: { finding: "limit", note: "Rope on the spectators' side only." },
    },
    outcome: "refused",
    limits: "The trigger lets go by itself: put a second catch in, rope all four sides, then show it again.",
  },
};

const WITHDRAWN = { entrant: 1, reason: "The trigger's safety pin is bent; a new one is being turned." };

export async function clearDemo(
  officer: () => Call,
  slug: string,
  machines: readonly { id: string; number: number }[],
): Promise<void> {
  for (const { id, number } of machines) {
    const call = officer();
    const { machine, revisions, current } = await machinePage(call.db, call.actor, slug, id);
    const [newest] = revisions;
    if (!newest || !current.sheetId) throw new Error(`${machine.name} has no hazard sheet to inspect it by.`);
    const { lines, outcome, limits } = FOUND[number] ?? PLAIN;
    const inspection = await done(
      inspectMachine(officer(), slug, id, {
        revisionId: newest.id,
        lines: linesFor(newest.declaration.machine).map((line) => ({
          id: line.id,
          ...(lines[line.id] ?? { finding: "meets" }),
        })),
        measured: [{ path: "projectile.mass", value: newest.declaration.projectile.mass }],
        outcome,
        limits,
      }),
    );
    if (outcome === "refused") continue;
    const { speed, gust } = AIR.air.wind;
    const widest = widestLimits(newest.declaration, defaultPolicy, { speed, gust, height: 10 });
    const permit = await done(
      signPermit(officer(), slug, id, {
        revisionId: newest.id,
        firingPointId: machine.firingPointId,
        bearing: machine.bearing,
        sheetId: current.sheetId,
        inspectionId: inspection.id,
        limits: { ...widest, bearing: 1 },
        conditions: limits,
      }),
    );
    if (number === WITHDRAWN.entrant)
      await withdrawPermit(officer(), slug, permit.id, { reason: WITHDRAWN.reason });
  }
}

const done = async <T>(reply: Promise<Reply<T>>): Promise<T> => (await reply).answer;
