/** What is taken for a tolerance that is left empty, in words. */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type ParameterInfo, PROJECTILE_TOLERANCE } from "@/lib/throw";
import { type Dimension, formatQuantity } from "@/lib/units";

const percent = (share: number) => `${Number((share * 100).toPrecision(3))} %`;

/** Half a millimetre, a tenth of a degree: no more digits than the default has. */
const amount = (value: number, dimension: Dimension, system: UnitSystem) =>
  dimension === "length" && system === "metric" && value < 0.1
    ? `${Number((value * 1000).toPrecision(2))} mm`
    : formatQuantity(value, dimension, system, { digits: significant(value, dimension, system) });

/** Decimals that leave two significant digits. */
function significant(value: number, dimension: Dimension, system: UnitSystem): number | undefined {
  if (dimension === "length") return undefined;
  const shown = Math.abs(Number.parseFloat(formatQuantity(value, dimension, system, { digits: 9 })));
  return shown > 0 ? Math.max(0, 1 - Math.floor(Math.log10(shown))) : undefined;
}

/** "± 1 % if left empty: ± 42 mm." */
export function toleranceWords(
  { dimension, tolerance, onlyNominal }: Pick<ParameterInfo, "dimension" | "tolerance" | "onlyNominal">,
  value: number | null,
  system: UnitSystem,
): string {
  if (onlyNominal) return "Counts only for the throw as meant: every release counts for the worst.";
  const { share = 0, plus = 0 } = tolerance ?? {};
  if (!(share > 0 || plus > 0)) return "Exact if left empty.";
  const parts = [share > 0 ? percent(share) : "", plus > 0 ? amount(plus, dimension, system) : ""];
  const taken = `± ${parts.filter(Boolean).join(" and ")} if left empty`;
  const sum = share * Math.abs(value ?? 0) + plus;
  return share > 0 && sum > 0 ? `${taken}: ± ${amount(sum, dimension, system)}.` : `${taken}.`;
}

/** The same of the projectile's mass or diameter. */
export const projectileToleranceWords = (dimension: Dimension, value: number | null, system: UnitSystem) =>
  toleranceWords({ dimension, tolerance: { share: PROJECTILE_TOLERANCE } }, value, system);
