/** What one rehearsal is played with. */
import type { RehearsalRequest } from "../../api/contracts";
import type { Database } from "../../db";
import type { Times } from "../../range";
import type { ContestRow } from "../find";
import type { Cast } from "./cast";

export interface Played {
  db: Database;
  contest: ContestRow;
  cast: Cast;
  setting: RehearsalRequest;
  /** In the order in which they throw. */
  machineIds: readonly string[];
  seed: number;
  /** Of the range, as they were before. */
  times: Times;
  runId: string;
}
