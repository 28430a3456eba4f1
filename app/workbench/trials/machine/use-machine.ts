"use client";
/** The calibrated machine and its next setting, of the newest throws. */
import { type Newest, useNewestAnswer } from "@/app/_ui/newest-answer";
import { trials } from "@/lib/throw";
import { calibrated, type MachineAsked } from "./ask";

const calibrateWorker = () => new Worker(new URL("./calibrate-worker.ts", import.meta.url));
const nextWorker = () => new Worker(new URL("./next-worker.ts", import.meta.url));
const PAUSE = 150;

export const useMachine = (asked: MachineAsked | null): Newest<MachineAsked, trials.CalibratedMachine> =>
  useNewestAnswer(asked, calibrateWorker, calibrated, PAUSE);

export const useNext = (asked: trials.NextAsked | null): Newest<trials.NextAsked, trials.NextSetting> =>
  useNewestAnswer(asked, nextWorker, trials.nextSetting, PAUSE);
