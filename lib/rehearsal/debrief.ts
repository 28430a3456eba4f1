/** What came of a played day: how long it took until the range stood still, and by whom. Nobody is ranked by it. */
import { PATIENCE, type Surprise } from "./script";

/** Instants in ms. */
export interface Cue {
  surprise: Surprise;
  at: number;
  machineName: string;
  postName: string;
}

export interface HoldHeard {
  /** When it was pressed, by the server's clock. */
  at: number;
  /** The badge's label; null: the program. */
  by: string | null;
}

export interface CueResult extends Cue {
  /** Until the first person pressed hold, s; null when nobody did. */
  after: number | null;
  by: string | null;
  /** Until the program held the range by itself, s; null when it did not. */
  programAfter: number | null;
  /** Others who pressed as well. */
  others: string[];
}

export interface RunResult {
  cues: CueResult[];
  /** Called by people while nothing was shown. Not a fault: on the day whoever is in doubt calls. */
  unprompted: number;
}

/**
 * A hold answers a cue when it is the first within `PATIENCE` of it, and so do those that come until it is lifted.
 *
 * @param cues oldest first
 * @param lifts instants, ms
 */
export function debrief(
  cues: readonly Cue[],
  holds: readonly HoldHeard[],
  lifts: readonly number[],
): RunResult {
  const inOrder = [...holds].sort((one, other) => one.at - other.at);
  const answersTo = ({ at }: Cue): HoldHeard[] => {
    const first = inOrder.find((hold) => hold.at >= at && hold.at <= at + PATIENCE * 1000);
    if (!first) return [];
    const lifted = Math.min(...lifts.filter((lift) => lift > first.at));
    return inOrder.filter((hold) => hold.at >= first.at && hold.at <= lifted);
  };
  const results = cues.map((cue): CueResult => {
    const all = answersTo(cue);
    const [first, ...others] = all.filter(({ by }) => by !== null);
    const program = all.find(({ by }) => by === null);
    const since = (hold: HoldHeard | undefined) => (hold ? (hold.at - cue.at) / 1000 : null);
    const names = others.flatMap(({ by }) => (by && by !== first?.by ? by : []));
    return {
      ...cue,
      after: since(first),
      by: first?.by ?? null,
      programAfter: since(program),
      others: [...new Set(names)],
    };
  });
  const prompted = new Set(cues.flatMap(answersTo));
  return {
    cues: results,
    unprompted: holds.filter((hold) => hold.by !== null && !prompted.has(hold)).length,
  };
}
