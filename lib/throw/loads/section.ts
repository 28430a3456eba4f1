/** Section moduli of an arm: how much bending moment one unit of stress stands for. */
import type { ArmSection } from "../contracts/strengths";

/** What one layer of cloth in resin adds to the depth, m. Common practice, no source. */
const CLOTH = 0.8e-3;

/** Section modulus about the axis across the swing, m³. */
export function sectionModulus(section: ArmSection): number {
  switch (section.shape) {
    case "rectangular":
      return (section.width * section.depth ** 2) / 6;
    case "round":
      return (Math.PI * section.diameter ** 3) / 32;
    case "tube": {
      const inner = section.diameter - 2 * section.wall;
      return (Math.PI * (section.diameter ** 4 - inner ** 4)) / (32 * section.diameter);
    }
    case "laminated": {
      const depth = section.depth + section.clothLayers * CLOTH;
      const whole = (section.width * depth ** 2) / 6;
      // Layers that slide on each other bend each for itself.
      const loose = whole / section.layers;
      return loose + section.glueFactor * (whole - loose);
    }
  }
}

/** The section at a share of the way from pivot (0) to tip (1), every size changing evenly. */
export function sectionBetween(pivot: ArmSection, tip: ArmSection | undefined, share: number): ArmSection {
  if (!tip || tip.shape !== pivot.shape) return pivot;
  const out: Record<string, unknown> = { ...pivot };
  const end: Record<string, unknown> = tip;
  for (const [name, value] of Object.entries(pivot)) {
    const other = end[name];
    if (typeof value === "number" && typeof other === "number") out[name] = value + share * (other - value);
  }
  return out as ArmSection;
}
