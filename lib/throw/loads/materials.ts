/** What wood and rope bear, derated for what is bought and built rather than for a perfect specimen. */
import type { ArmMaterial, SlingStrength, WOOD_GRADES, WOOD_SPECIES } from "../contracts/strengths";

interface Wood {
  /** Mean modulus of rupture of clear wood at 12 % moisture, and of green wood, Pa. */
  dry: number;
  green: number;
  /** Moisture above which the strength no longer falls, percent. */
  fibreSaturation: number;
  /** Usual factor between strength and allowed stress in bending: duration of load and safety. */
  designFactor: number;
}

/**
 * Source of moduli and of the moisture at intersection: USDA Forest Products Laboratory, Wood Handbook, mechanical
 * properties of clear wood (from memory). Design factors: ASTM D245, 2.1 for softwoods, 2.3 for hardwoods (from
 * memory).
 */
export const WOODS: Record<(typeof WOOD_SPECIES)[number], Wood> = {
  "white-oak": { dry: 105e6, green: 57e6, fibreSaturation: 25, designFactor: 2.3 },
  "white-ash": { dry: 103e6, green: 66e6, fibreSaturation: 24, designFactor: 2.3 },
  "shagbark-hickory": { dry: 139e6, green: 76e6, fibreSaturation: 25, designFactor: 2.3 },
  "douglas-fir": { dry: 85e6, green: 53e6, fibreSaturation: 24, designFactor: 2.1 },
  "longleaf-pine": { dry: 100e6, green: 59e6, fibreSaturation: 21, designFactor: 2.1 },
};

/** Bending strength left by the knots and slope of grain that a grade allows. Source: ASTM D245 (from memory). */
export const GRADE_RATIO: Record<(typeof WOOD_GRADES)[number], number> = {
  clear: 1,
  "select-structural": 0.65,
  "no-1": 0.55,
  "no-2": 0.45,
  "no-3": 0.26,
};

/**
 * Of the mean, what 95 of 100 pieces of clear wood exceed: a coefficient of variation of 16 %. Source: Wood
 * Handbook (from memory).
 */
export const FIFTH_PERCENTILE = 1 - 1.645 * 0.16;

/**
 * Mean modulus of rupture of clear wood at a moisture content (percent), Pa: P = P12·(P12/Pg)^((12−M)/(Mp−12)) up
 * to the intersection Mp, green strength above. Source: Wood Handbook, adjustment for moisture.
 */
export function clearWoodStrength(species: keyof typeof WOODS, moisture: number): number {
  const { dry, green, fibreSaturation } = WOODS[species];
  if (moisture >= fibreSaturation) return green;
  // Drier than 12 % is taken as no stronger: brittleness and checks eat the gain (common practice, no source).
  return dry * (dry / green) ** ((12 - Math.max(12, moisture)) / (fibreSaturation - 12));
}

/** Bending stress at which an arm's material is taken to fail (Pa), the usual design factor, and how it was taken. */
export function armStrength(material: ArmMaterial): {
  strength: number;
  designFactor: number;
  explanation: string;
} {
  if ("modulusOfRupture" in material) {
    return {
      strength: material.modulusOfRupture,
      // The larger of the woods' factors: common practice for what is not known better, no source.
      designFactor: 2.3,
      explanation: "The declared bending strength, nothing taken off.",
    };
  }
  const { wood, grade, moisture } = material;
  const strength = clearWoodStrength(wood, moisture) * FIFTH_PERCENTILE * GRADE_RATIO[grade];
  return {
    strength,
    designFactor: WOODS[wood].designFactor,
    explanation: `${words(wood)}, grade ${words(grade)}, at ${moisture} % moisture: what 95 of 100 such pieces exceed, not the mean of clear dry wood. A crack, rot or a bolt hole takes more.`,
  };
}

const words = (name: string) => name.replaceAll("-", " ");

/** Strength kept by a rope with a knot in it. Common practice, no source. */
export const KNOT_FACTOR = 0.5;
/** Strength kept by a wet rope, as of nylon. Common practice, no source. */
export const WET_FACTOR = 0.85;
/** Design factor of synthetic slings. Source: ASME B30.9 (from memory). */
export const SLING_DESIGN_FACTOR = 5;
/**
 * Share by which a sling stretches before it breaks, where none is declared: that of high-modulus polyethylene, the
 * stiffest rope that slings are usually tied of (aramid about as much, polyester 0.12, nylon 0.2). Common practice, no
 * source.
 */
export const STRETCH = 0.035;
/** Times as strong as the design factor asks that a usual sling may be: rope is bought one size up. Common practice, no source. */
const OVERSIZE = 2;

/** Pull at which the sling is taken to tear, N, and how it was taken. */
export function slingStrength(sling: SlingStrength): { strength: number; explanation: string } {
  if ("breakingStrength" in sling) {
    return {
      strength: sling.breakingStrength,
      explanation: "The declared breaking strength of the whole sling.",
    };
  }
  const { ropeRating, knots, wet, legs } = sling;
  const taken: string[] = [];
  if (knots) taken.push("half for knots");
  if (wet) taken.push(`${Math.round(100 * (1 - WET_FACTOR))} % for water`);
  const off = taken.length > 0 ? `less ${taken.join(" and ")}` : "dry and without knots";
  return {
    strength: ropeRating * legs * (knots ? KNOT_FACTOR : 1) * (wet ? WET_FACTOR : 1),
    explanation: `${legs === 1 ? "One rope" : `${legs} ropes that share the pull evenly`} at the declared rating, ${off}. Sun, wear and sharp edges take more.`,
  };
}

/**
 * What one more metre of the whole sling pulls, N/m, and how it was taken. Knots and water take strength, hardly any
 * stiffness: the rope is as stiff as its rating says. With nothing declared it is as stiff as usual slings get, so that
 * jerks grow smaller once a usual one is declared.
 * @param length m
 * @param pull the largest that the sling has to bear, N
 */
export function slingStiffness(
  sling: SlingStrength | undefined,
  length: number,
  pull: number,
): { stiffness: number; explanation: string } {
  const stretch = sling?.stretch ?? STRETCH;
  const percent = `${Math.round(1000 * stretch) / 10} %`;
  const stiffest = `${percent}, as the stiffest usual rope: how far yours stretches is not declared`;
  if (!sling) {
    const rating = (OVERSIZE * SLING_DESIGN_FACTOR * pull) / (KNOT_FACTOR * WET_FACTOR);
    return {
      stiffness: rating / (stretch * length),
      explanation: `No sling is declared, so a stiff one is taken: rope that stretches ${percent} before it breaks, ${OVERSIZE} times as strong as a factor of ${SLING_DESIGN_FACTOR} asks with knots and water. Most slings jerk less; a stronger one of such rope jerks harder.`,
    };
  }
  if ("breakingStrength" in sling) {
    // A knotted sling breaks where its rope has stretched by a part of what it could.
    const rating = sling.breakingStrength / (sling.stretch === undefined ? KNOT_FACTOR : 1);
    return {
      stiffness: rating / (stretch * length),
      explanation: sling.stretch
        ? `The sling stretches ${percent} before it breaks, as declared.`
        : `The rope stretches ${stiffest}.`,
    };
  }
  return {
    stiffness: (sling.ropeRating * sling.legs) / (stretch * length),
    explanation: `${sling.stretch ? `The rope stretches ${percent} before it breaks, as declared` : `The rope stretches ${stiffest}`}; knots and water leave it as stiff.`,
  };
}
