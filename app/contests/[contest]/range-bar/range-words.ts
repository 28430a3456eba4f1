/** The range in words: every colour has one. */
import type { RangeBrief } from "@/lib/api/contracts";

export function modeWords(brief: RangeBrief | null): string {
  if (!brief) return "Range: not heard yet";
  if (brief.mode === "cold") return "Range cold";
  if (brief.mode === "hot") return `RANGE HOT: ${brief.hot?.machineName}`;
  if (brief.mode === "hold") return "HOLD";
  // An order: "nobody downrange" would read as a report that it is empty.
  return "NOT COLD: do not go downrange";
}

export const momentOf = (at: Date | null): string =>
  at ? at.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit", second: "2-digit" }) : "never";
