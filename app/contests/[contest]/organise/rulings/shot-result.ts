import type { ShotInfo } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";

/** What a shot has now, in a word or a number. */
export const shotResult = (shot: ShotInfo, system: UnitSystem) =>
  shot.result.how === "none"
    ? "no entry yet"
    : shot.result.how === "disagree"
      ? "entries disagree"
      : shot.result.mark === null
        ? (shot.result.outcome ?? "no mark")
        : formatQuantity(shot.result.mark, "distance", system, { digits: 2 });
