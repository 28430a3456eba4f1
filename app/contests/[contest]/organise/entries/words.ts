/** How an entry stands, in words. */
import type { EntrySummary } from "@/lib/api/contracts";

export const STATE_WORDS: Record<EntrySummary["state"], string> = {
  draft: "being filled in",
  sent: "! waits for your answer",
  returned: "sent back, to be completed",
  accepted: "✓ accepted",
  refused: "refused",
};
