"use client";
/** The calibrated machine and its next setting, of the newest throws. */
import { type Newest, useNewestAnswer } from "@/app/_ui/newest-answer";
import { trials } from "@/lib/throw";
import { calibrated, type MachineAsked, quickly } from "./ask";

const calibrateWorker = () => new Worker(new URL("./calibrate-worker.ts", import.meta.url));
const quickWorker = () => new Worker(new URL("./quick-worker.ts", import.meta.url));
const nextWorker = () => new Worker(new URL("./next-worker.ts", import.meta.url));
const PAUSE = 150;

/** What the throws say, and which of them it is said of. */
export interface Judged {
  machine: trials.CalibratedMachine;
  asked: MachineAsked;
  /** Held against the declared numbers alone: the worst throws within their tolerances are being worked out. */
  provisional: boolean;
}

export interface MachineFound {
  /** Of the throws as they stand; null until the quick answer is there. */
  now: Judged | null;
  /** The last complete answer, perhaps of other throws: what it warned of stays until the next one. */
  before: Judged | null;
  failure: string | null;
}

export function useMachine(asked: MachineAsked | null): MachineFound {
  const quick = useNewestAnswer(asked, quickWorker, quickly, 0);
  const full = useNewestAnswer(asked, calibrateWorker, calibrated, PAUSE);
  // An answer is of the throws that it was asked of, whatever was written down since.
  const key = asked && JSON.stringify(asked);
  const judged = (
    from: Newest<MachineAsked, trials.CalibratedMachine>,
    provisional: boolean,
  ): Judged | null =>
    from.answer && from.question ? { machine: from.answer, asked: from.question, provisional } : null;
  const ofNow = (found: Judged | null) => (found && JSON.stringify(found.asked) === key ? found : null);
  const before = judged(full, false);
  return {
    now: ofNow(before) ?? ofNow(judged(quick, true)),
    before: asked ? before : null,
    failure: asked ? (full.failure ?? quick.failure) : null,
  };
}

export const useNext = (asked: trials.NextAsked | null): Newest<trials.NextAsked, trials.NextSetting> =>
  useNewestAnswer(asked, nextWorker, trials.nextSetting, PAUSE);
