"use client";
/** The calibrated machine and its next setting, of the newest throws. */
import { useMemo } from "react";
import { type Newest, useNewestAnswer } from "@/app/_ui/newest-answer";
import { trials } from "@/lib/throw";
import { calibrated, type MachineAsked, quickly } from "./ask";

const calibrateWorker = () => new Worker(new URL("./calibrate-worker.ts", import.meta.url));
const quickWorker = () => new Worker(new URL("./quick-worker.ts", import.meta.url));
const nextWorker = () => new Worker(new URL("./next-worker.ts", import.meta.url));
const PAUSE = 150;

/** What the throws say. */
export interface Judged {
  machine: trials.CalibratedMachine;
  /** Held against the declared numbers alone: the worst throws within their tolerances are being worked out. */
  provisional: boolean;
}

export interface MachineFound {
  /** Of the throws as they stand; null until the quick answer is there. */
  now: Judged | null;
  failure: string | null;
}

export function useMachine(asked: MachineAsked | null): MachineFound {
  const quick = useNewestAnswer(asked, quickWorker, quickly, 0);
  const full = useNewestAnswer(asked, calibrateWorker, calibrated, PAUSE);
  // An answer is of the throws that it was asked of, whatever was written down since.
  const key = asked && JSON.stringify(asked);
  const now = useMemo(() => {
    const of = (from: Newest<MachineAsked, trials.CalibratedMachine>, provisional: boolean): Judged | null =>
      from.answer && JSON.stringify(from.question) === key ? { machine: from.answer, provisional } : null;
    return of(full, false) ?? of(quick, true);
  }, [full, quick, key]);
  return { now, failure: asked ? (full.failure ?? quick.failure) : null };
}

export const useNext = (asked: trials.NextAsked | null): Newest<trials.NextAsked, trials.NextSetting> =>
  useNewestAnswer(asked, nextWorker, trials.nextSetting, PAUSE);
