/** Loads of one part over the lives that count. */
import type { PartLoad, PartName } from "./parts";

/** The throw as meant and what follows it, or every life: hang-up, dry fire and torn sling too. */
export type Scope = "meant" | "all";

/** Whether a load leaves less than its design factor; what has no strength is not judged. */
export const isShort = ({ reserve }: PartLoad): boolean =>
  reserve.verdict === "breaks" || reserve.verdict === "below-design-factor";

export const livesIn = (parts: readonly PartLoad[], part: PartName, scope: Scope): PartLoad[] =>
  parts.filter(
    (row) => row.part === part && (scope === "all" || row.life === "throw" || row.life === "after"),
  );

export const largestOf = (rows: readonly PartLoad[]): number =>
  Math.max(0, ...rows.map(({ reserve }) => reserve.load));

/** Null when there is none. */
export function leastReserve(rows: readonly PartLoad[]): number | null {
  const known = rows.flatMap(({ reserve }) => (reserve.reserve === null ? [] : [reserve.reserve]));
  return known.length > 0 ? Math.min(...known) : null;
}
