/** Distances that people must keep or walk, in whole metres or feet: never rounded to the wrong side. */
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { otherSystem } from "./both-units";

const FOOT = 0.3048; // m
/** A billionth is rounding in the last bits, not ground. */
const HAIR = 1e-9;

/** What people must keep off, in the reader's units with the other system's beside it. */
export const keepOffBoth = (metres: number, system: UnitSystem): string =>
  `${wholeDistance(metres, system, "up")} (${wholeDistance(metres, otherSystem(system), "up")})`;

export function wholeDistance(metres: number, system: UnitSystem, round: "up" | "down"): string {
  const unit = system === "us" ? FOOT : 1;
  const whole = round === "up" ? Math.ceil(metres / unit - HAIR) : Math.floor(metres / unit + HAIR);
  return formatQuantity(whole * unit, "distance", system, { digits: 0 });
}
