/** Kinds and states of consents as people say them. */
import type { ConsentInfo, ConsentKind } from "@/lib/api/contracts";

export const CONSENT_TITLES: Record<ConsentKind, string> = {
  landowner: "Landowner",
  neighbour: "Neighbour",
  utility: "Utility (overhead line)",
  road: "Road authority",
  aerodrome: "Aerodrome",
  "fire-service": "Fire service",
  insurer: "Insurer",
  other: "Other",
};

export const CONSENT_STATE_WORDS: Record<ConsentInfo["state"], string> = {
  missing: "asked for, not given",
  expired: "expired",
  "too-short": "ends before the day",
  "not-yet": "begins after the day",
  holds: "holds on the day",
};
