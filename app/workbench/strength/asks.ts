"use client";
/** What may break while numbers change, and what would help once they stand still. */
import { type Newest, useNewestAnswer } from "@/app/_ui/newest-answer";
import { type Breakage, breakage, type HazardRequest, type Help, whatWouldHelp } from "@/lib/throw";

const breakageWorker = () => new Worker(new URL("./breakage-worker.ts", import.meta.url));
const helpWorker = () => new Worker(new URL("./help-worker.ts", import.meta.url));

/** A pause in typing before the next question, ms; help takes up to seconds, and waits for the last word. */
const PAUSE = 60;
const LONG_PAUSE = 500;

export const helpFor = (request: HazardRequest): Help[] => whatWouldHelp(request, breakage(request));

export const useBreakage = (request: HazardRequest | null): Newest<HazardRequest, Breakage> =>
  useNewestAnswer(request, breakageWorker, breakage, PAUSE);

export const useHelp = (request: HazardRequest | null): Newest<HazardRequest, Help[]> =>
  useNewestAnswer(request, helpWorker, helpFor, LONG_PAUSE);
