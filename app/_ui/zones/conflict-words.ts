/** How a zone stands to a feature, for the map's pages and for paper. */
import type { ZoneProperties } from "@/lib/api/contracts";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";

/** What the words need of a conflict. */
type Conflict = Pick<
  ZoneProperties["conflicts"][number],
  "kind" | "touches" | "overlapArea" | "overlapLength" | "distance" | "standOff"
>;

/** What is less would be written as nothing, m or m². */
const LEAST = 0.05;

/** How a zone stands to a feature: "covers 340 m² of it", "comes to 12 m of it; the stand-off is 20 m". */
export function conflictWords(conflict: Conflict, system: UnitSystem): string {
  const quantity = (value: number, dimension: Dimension) =>
    formatQuantity(
      value,
      dimension,
      system,
      // Of a large area three digits or four say all.
      dimension === "area" && value > 1000 ? { uncertainty: value / 1000 } : { digits: value < 10 ? 1 : 0 },
    );
  if (conflict.touches && Math.max(conflict.overlapArea, conflict.overlapLength) < LEAST) return "touches it";
  if (conflict.touches && conflict.kind === "boundary") {
    return `leaves it: ${quantity(conflict.overlapArea, "area")} of the zone lie outside`;
  }
  if (conflict.touches && conflict.overlapArea >= LEAST) {
    return `covers ${quantity(conflict.overlapArea, "area")} of it`;
  }
  if (conflict.touches) {
    return `covers ${quantity(conflict.overlapLength, "distance")} of its length`;
  }
  return `comes to ${quantity(conflict.distance, "distance")} of it; the stand-off is ${quantity(conflict.standOff, "distance")}`;
}
