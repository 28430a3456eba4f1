/** Bolts in shear: how many of which size a stop's peak force needs. Bearing in what they go through is not modelled. */

export const BOLT_SIZES = [
  "M8",
  "M10",
  "M12",
  "M16",
  "M20",
  "M24",
  "M30",
  "3/8 in",
  "1/2 in",
  "5/8 in",
  "3/4 in",
  "1 in",
] as const;
export const BOLT_CLASSES = ["4.6", "5.8", "8.8", "10.9", "Grade 2", "Grade 5", "Grade 8"] as const;

export type BoltSize = (typeof BOLT_SIZES)[number];
export type BoltClass = (typeof BOLT_CLASSES)[number];

const INCH = 0.0254;
const metric = (diameter: number, pitch: number) => stressArea(diameter * 1e-3, pitch * 1e-3, 0.9382);
const unified = (inches: number, threads: number) => stressArea(inches * INCH, INCH / threads, 0.9743);

/**
 * Tensile stress area of a thread, m²: π/4·(d − k·P)². k = 0.9382 for metric threads (ISO 898-1), 0.9743 for unified
 * ones (ASME B1.1); both from memory.
 */
function stressArea(diameter: number, pitch: number, k: number): number {
  return (Math.PI / 4) * (diameter - k * pitch) ** 2;
}

/** Coarse threads: ISO 261 and ASME B1.1 (from memory). m² */
export const STRESS_AREA: Record<BoltSize, number> = {
  M8: metric(8, 1.25),
  M10: metric(10, 1.5),
  M12: metric(12, 1.75),
  M16: metric(16, 2),
  M20: metric(20, 2.5),
  M24: metric(24, 3),
  M30: metric(30, 3.5),
  "3/8 in": unified(3 / 8, 16),
  "1/2 in": unified(1 / 2, 13),
  "5/8 in": unified(5 / 8, 11),
  "3/4 in": unified(3 / 4, 10),
  "1 in": unified(1, 8),
};

const KSI = 6894757.293168361;

/**
 * Tensile strength, Pa, and the share of it that is borne in shear with the thread in the cut. Strengths: nominal of
 * ISO 898-1, least of SAE J429 up to 1 in. Shares: EN 1993-1-8, 0.5 for the more brittle and the cold-worked classes, 0.6 for the
 * others. All from memory; the graded inch bolts take 0.5.
 */
export const BOLT_STRENGTH: Record<BoltClass, { tensile: number; shearShare: number }> = {
  "4.6": { tensile: 400e6, shearShare: 0.6 },
  "5.8": { tensile: 500e6, shearShare: 0.5 },
  "8.8": { tensile: 800e6, shearShare: 0.6 },
  "10.9": { tensile: 1000e6, shearShare: 0.5 },
  "Grade 2": { tensile: 60 * KSI, shearShare: 0.5 },
  "Grade 5": { tensile: 120 * KSI, shearShare: 0.5 },
  "Grade 8": { tensile: 150 * KSI, shearShare: 0.5 },
};

/** One bolt never stands alone, and the first of a row bears more than its share. Common practice, no source. */
const FEWEST = 2;
/** More in one joint than anybody should trust to share a blow. Common practice, no source. */
export const MOST_BOLTS = 12;

export interface Bolting {
  size: BoltSize;
  /** What one bolt bears in all its cuts before it shears, N. */
  each: number;
  count: number;
  /** All bolts together over the peak force. */
  reserve: number;
  /** More than should share one blow. */
  tooMany: boolean;
}

export const shearStrengthOf = (grade: BoltClass, stated?: number): number =>
  stated ?? BOLT_STRENGTH[grade].tensile * BOLT_STRENGTH[grade].shearShare;

/** The least number of bolts of a size for a force (N) with a design factor. */
export function boltsFor(
  force: number,
  size: BoltSize,
  shearStrength: number,
  planes: number,
  designFactor: number,
): Bolting {
  const each = planes * STRESS_AREA[size] * shearStrength;
  const count = Math.max(FEWEST, Math.ceil((designFactor * force) / each));
  return { size, each, count, reserve: (count * each) / force, tooMany: count > MOST_BOLTS };
}
