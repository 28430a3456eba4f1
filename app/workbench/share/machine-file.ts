/**
 * A machine as a file that a team hands on: JSON in SI units and degrees, one revision as the API's calculator takes it.
 *
 * { "format": "fairthrow-machine", "version": 1, "name": "…", "chosen": 0,
 *   "revisions": [{ "name": "…", "note": "…", "request": { machine, projectile, tolerances, strengths, air, terrain, policy } }] }
 *
 * A request may lack what nobody entered yet; unknown members are told before they are left behind. A later version takes
 * another number. `read-machine.ts` reads it.
 */
import { requestBody } from "@/app/_ui/machine-form/form/request";
import type { Bench } from "../bench/bench";

export const FORMAT = "fairthrow-machine";
export const VERSION = 1;
/** Far above what a full bench takes, bytes. */
export const LARGEST = 1024 * 1024;

export function benchToFile({ name, revisions, chosen }: Bench): string {
  const file = {
    format: FORMAT,
    version: VERSION,
    name,
    chosen: Math.max(
      0,
      revisions.findIndex(({ id }) => id === chosen),
    ),
    revisions: revisions.map(({ name, note, form }) => ({ name, note, request: requestBody(form) })),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

/** A name for the file from the machine's. */
export const fileNameOf = (name: string): string =>
  `${
    name
      .normalize("NFKD")
      .replace(/[^\w]+/g, "-")
      .replace(/^-+|-+$/g, "")
      .toLowerCase() || "machine"
  }.fairthrow.json`;
