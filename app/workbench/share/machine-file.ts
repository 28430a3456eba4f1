/**
 * A machine as a file that a team hands on: JSON in SI units and degrees, one revision as the API's calculator takes it.
 *
 * { "format": "fairthrow-machine", "version": 2, "name": "…", "chosen": 0,
 *   "revisions": [{ "name": "…", "note": "…", "request": { machine, projectile, tolerances, strengths, air, terrain, policy } }],
 *   "stops": [{ "rank": "hold", "way": "forward", "distance": 610, "limit": 215.4, "at": "2031-05-03T14:20", "number": 5,
 *     "throw": "…", "machine": "…" }] }
 *
 * `stops` are the practice throws that call STOP and that nobody has answered (`alarm/carried.ts`), or that were not judged;
 * perhaps none. Version 1 has none of them and says nothing of practice throws.
 *
 * A request may lack what nobody entered yet; unknown members are told before they are left behind. A later version takes
 * another number. `read-machine.ts` reads it.
 */
import { requestBody } from "@/app/_ui/machine-form/form/request";
import type { Carried } from "../alarm/carried";
import type { Bench } from "../bench/bench";

export const FORMAT = "fairthrow-machine";
export const VERSION = 2;
/** Far above what a full bench takes, bytes. */
export const LARGEST = 1024 * 1024;

export function benchToFile({ name, revisions, chosen }: Bench, stops: readonly Carried[]): string {
  const file = {
    format: FORMAT,
    version: VERSION,
    name,
    chosen: Math.max(
      0,
      revisions.findIndex(({ id }) => id === chosen),
    ),
    revisions: revisions.map(({ name, note, form }) => ({ name, note, request: requestBody(form) })),
    stops,
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
