/** How a hazard sheet writes its numbers: units, and no more digits than they deserve. */
import { type Machine, machineKind } from "@/lib/throw";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";

/** A computed distance: tenths of a metre below 100 m, else whole metres; whole feet. */
export const distanceText = (metres: number, system: UnitSystem): string =>
  formatQuantity(metres, "distance", system, {
    digits: system === "metric" && Math.abs(metres) < 100 ? 1 : 0,
  });

/** A distance that people must keep: never rounded down. */
export function keptDistanceText(metres: number, system: UnitSystem): string {
  const unit = system === "us" ? 0.3048 : 1;
  // A billionth is rounding in the last bits, not ground.
  return formatQuantity(Math.ceil(metres / unit - 1e-9) * unit, "distance", system, { digits: 0 });
}

export const otherSystem = (system: UnitSystem): UnitSystem => (system === "us" ? "metric" : "us");

/** An instant after the trigger. */
export const instantText = (seconds: number): string => `${seconds.toFixed(3)} s`;

export const speedText = (speed: number, system: UnitSystem): string =>
  formatQuantity(speed, "speed", system, { digits: 1 });

export const angleText = (degrees: number): string =>
  formatQuantity(degrees, "angle", "metric", { digits: 0 });

export const heightText = (metres: number, system: UnitSystem): string =>
  formatQuantity(metres, "distance", system, { digits: 1 });

/** Two significant digits from 1000 on; whole numbers before. */
export function energyText(joules: number, system: UnitSystem): string {
  const shown = system === "us" ? joules / 1.3558179483314004 : joules;
  const digits = shown < 1000 ? 0 : 2 - Math.ceil(Math.log10(shown));
  return formatQuantity(joules, "energy", system, { digits });
}

export const kindTitle = (kind: string): string => {
  try {
    return machineKind(kind as Machine["kind"]).title;
  } catch {
    return kind;
  }
};

const others: Record<string, { label: string; dimension: Dimension }> = {
  mass: { label: "Projectile mass", dimension: "mass" },
  diameter: { label: "Projectile diameter", dimension: "length" },
  lift: { label: "Lift coefficient", dimension: "ratio" },
  drag: { label: "Drag coefficient", dimension: "ratio" },
  "drag.low": { label: "Drag coefficient", dimension: "ratio" },
  gust: { label: "Gust", dimension: "speed" },
};

/** A parameter as people call it, and in which dimension its value is. */
export function parameterWords(kind: string, name: string): { label: string; dimension: Dimension } {
  try {
    const found = machineKind(kind as Machine["kind"]).parameters.find((each) => each.name === name);
    if (found) return found;
  } catch {
    // A sheet of a kind this version does not know: its parameters keep their names.
  }
  return others[name.replace(/^projectile\./, "")] ?? { label: name, dimension: "ratio" };
}
