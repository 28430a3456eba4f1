"use client";
/** The quick answer while numbers change. */
import { type HazardRequest, type Preview, preview } from "@/lib/throw";
import { useNewestAnswer } from "../newest-answer";

export interface Previewed {
  /** The last answer; kept, and marked stale, while there is no complete question. */
  preview: Preview | null;
  request: HazardRequest | null;
  stale: boolean;
  /** Why the newest question has no answer. */
  failure: string | null;
}

/** A pause in typing before the next question, ms. */
const PAUSE = 60;

const makeWorker = () => new Worker(new URL("./preview-worker.ts", import.meta.url));

export function usePreview(request: HazardRequest | null): Previewed {
  const { answer, question, stale, failure } = useNewestAnswer(request, makeWorker, preview, PAUSE);
  return { preview: answer, request: question, stale, failure };
}
