/** The question whether a throw went too far. Apart from the worker, which a page starts and no worker may name. */
import type { trials } from "@/lib/throw";
import { calibrated, type MachineAsked, quickly } from "../trials/machine/ask";

export type Part =
  | { found: trials.CalibratedMachine; provisional: boolean }
  /** Why it cannot be computed, as a sentence. */
  | { failure: string };

export function judge(asked: MachineAsked, heard: (part: Part) => void): void {
  try {
    heard({ found: quickly(asked), provisional: true });
    heard({ found: calibrated(asked), provisional: false });
  } catch (error) {
    heard({ failure: error instanceof Error ? error.message : String(error) });
  }
}

export const isLast = (part: Part): boolean => "failure" in part || !part.provisional;
