/**
 * Several fixes of one shot made one point, by weight: generalised least squares with the full covariance of all, shared
 * pegs and satellites included. Fixes that disagree by more than that allows are shown, not averaged.
 */
import { AGREEMENT_LEVEL, covarianceBy } from "./adjust";
import { type Budget, type Contribution, mapped, merged } from "./budget";
import { chiSquareAbove, chiSquareQuantile } from "./chi-square";
import { type Located, locatedAt } from "./locate";
import { apply, dot, inverseOf, multiply, transpose } from "./matrix";
import { groundOf, type Site } from "./site";
import { listed, metres, type Warning } from "./warnings";

export interface Combined {
  /** Null when the fixes disagree. */
  located: Located | null;
  /** Sum of the squared disagreements in units of their covariance, and the most that agreeing fixes reach. */
  chiSquare: number;
  limit: number;
  /** How often sound fixes would be told to agree: 0.95. */
  level: number;
  /** Chance of a disagreement at least as large between sound fixes. */
  probability: number;
  /** Largest distance between two of the fixes, m. */
  apart: number;
  warnings: Warning[];
}

/** To what the middle of a crater is defined, m: keeps fixes without any other error apart. */
const CRATER = 1e-3;

/** What is a fix's alone gets a name of its own. */
const named = (budget: Budget, index: number): Contribution[] =>
  budget.map((each) => (each.shared ? each : { ...each, source: `fix ${index + 1}: ${each.source}` }));

/** Combines fixes of one shot, at most 150 of them. Throws RangeError without any. */
export function combine(fixes: readonly Located[], site: Site): Combined {
  const [first] = fixes;
  if (!first) throw new RangeError("There is no fix to combine.");
  const alone = { chiSquare: 0, limit: 0, level: AGREEMENT_LEVEL, probability: 1, apart: 0 };
  if (fixes.length === 1) return { ...alone, located: first, warnings: first.warnings };

  const ground = groundOf(site);
  const places = fixes.map(({ point }) => ground.plane.toPlane(point));
  const budgets = fixes.map(({ budget }, index) => merged(named(budget, index)));
  const values = places.flatMap(({ east, north }) => [east, north]);
  const weights = inverseOf(jointCovariance(budgets)) as number[][];
  const rows = values.map((_, index) => (index % 2 === 0 ? [1, 0] : [0, 1]));
  const weighted = multiply(transpose(rows), weights);
  const gain = multiply(inverseOf(multiply(weighted, rows)) as number[][], weighted);
  const [east = 0, north = 0] = apply(gain, values);

  const off = values.map((value, index) => value - (index % 2 === 0 ? east : north));
  const chiSquare = dot(off, apply(weights, off));
  const free = values.length - 2;
  const limit = chiSquareQuantile(AGREEMENT_LEVEL, free);
  const apart = Math.max(
    ...places.flatMap((a) => places.map((b) => Math.hypot(a.east - b.east, a.north - b.north))),
  );
  const test = {
    chiSquare,
    limit,
    level: AGREEMENT_LEVEL,
    probability: chiSquareAbove(chiSquare, free),
    apart,
  };
  const warnings = fixes.flatMap((fix) => fix.warnings);
  const landings = new Set(fixes.flatMap(({ landing }) => landing ?? []));
  if (landings.size > 1) return { ...test, located: null, warnings: [...warnings, TWO_PLACES] };
  if (chiSquare > limit)
    return { ...test, located: null, warnings: [...warnings, disagreement(fixes, apart)] };

  const budget = merged(
    ...budgets.map((each, index) => {
      const column = (row: number) =>
        [gain[row]?.[2 * index] as number, gain[row]?.[2 * index + 1] as number] as const;
      return mapped(each, [column(0), column(1)]);
    }),
  );
  const located = locatedAt(
    { point: ground.plane.toPoint({ east, north }), budget, warnings },
    ground,
    [...landings][0],
  );
  return { ...test, located, warnings: located.warnings };
}

/** Of east and north of all points, by turns. */
function jointCovariance(budgets: readonly Budget[]): number[][] {
  const size = 2 * budgets.length;
  const effects = new Map<string, number[]>();
  budgets.forEach((budget, index) => {
    for (const { source, east, north } of budget) {
      const on = effects.get(source) ?? new Array<number>(size).fill(0);
      on[2 * index] = east;
      on[2 * index + 1] = north;
      effects.set(source, on);
    }
  });
  const sums = covarianceBy(
    [...effects.values()].map((on) => ({ on })),
    size,
  );
  return sums.map((row, i) => row.map((sum, j) => (i === j ? sum + CRATER ** 2 : sum)));
}

const TWO_PLACES: Warning = {
  code: "fixes-disagree",
  text: "Some of the fixes are of the first impact and others of where it came to rest: they are not averaged. Take those that the contest's rule asks for.",
};

function disagreement(fixes: readonly Located[], apart: number): Warning {
  const each = fixes.map(({ mark, uncertainty }) => `${mark.toFixed(2)} m ± ${uncertainty.toFixed(2)} m`);
  return {
    code: "fixes-disagree",
    text: `The fixes disagree beyond their uncertainties: ${listed(each)} (k = 2), up to ${metres(apart)} between the points. They are not averaged: measure the landing point again, or rule which fix counts.`,
  };
}
