/**
 * What differs from one ordinary throw to the next: every number with a tolerance, declared or the kind's own, the
 * wind between its mean and its gusts, and how well the machine is aimed.
 *
 * A ± is read as a pair of limits between which nothing is known, so every draw is uniform between them (JCGM
 * 101:2008, 6.4.2); the limits are those of the worst case's box, which no draw leaves. What follows from other
 * numbers when left empty follows from the drawn ones, unless it has a tolerance of its own.
 */
import type { HazardRequest } from "../contracts/request";
import { machineKind } from "../machines/registry";
import { boxesOf, toleranceOf } from "../worst/box";

interface Varied {
  name: string;
  of: "machine" | "projectile";
  declared: number;
  low: number;
  high: number;
}

/** Of the wind and of the aim: the first numbers of every draw, so that they stay when a tolerance is added. */
const FIXED = 4;

export class Variation {
  /** Uniform numbers, −1 to 1, that one draw takes. */
  readonly size: number;
  private readonly sides: readonly Varied[];
  private readonly base: HazardRequest;

  constructor(request: HazardRequest) {
    // The rule of what may be thrown is for the worst case: here the declared projectile is meant.
    const [box] = boxesOf({ ...request, policy: undefined });
    const { parameters } = machineKind(request.machine.kind);
    const declared = request.machine as unknown as Record<string, unknown>;
    // What decides only when the projectile is meant to leave is no side of that box, and matters most here.
    const aims = parameters.flatMap(({ name, tolerance, toleranceFrom, onlyNominal }): Varied[] => {
      const value = declared[name];
      if (!onlyNominal || typeof value !== "number") return [];
      const own = toleranceFrom === undefined ? undefined : declared[toleranceFrom];
      const plus = toleranceOf(request, name, value, typeof own === "number" ? { plus: own } : tolerance);
      return plus > 0
        ? [{ name, of: "machine", declared: value, low: value - plus, high: value + plus }]
        : [];
    });
    this.sides = [...box.sides, ...aims];
    // Each draw is an exact machine.
    const names = ["mass", "diameter", ...parameters.map(({ name }) => name)];
    this.base = { ...box.request, tolerances: Object.fromEntries(names.map((name) => [name, 0])) };
    this.size = FIXED + this.sides.length;
  }

  /** The exact machine and projectile of a draw. */
  requestAt(draw: Float64Array): HazardRequest {
    const machine: Record<string, unknown> = { ...this.base.machine };
    const projectile = { ...this.base.projectile };
    this.sides.forEach(({ name, of, low, high }, i) => {
      const value = low + (0.5 + 0.5 * draw[FIXED + i]) * (high - low);
      if (of === "machine") machine[name] = value;
      else projectile[name as "mass" | "diameter"] = value;
    });
    return { ...this.base, machine: machine as unknown as HazardRequest["machine"], projectile };
  }
}
