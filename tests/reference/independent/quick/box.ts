/**
 * The tolerance box by brute force: every corner of the six parameters that move the throw most, and random draws
 * inside, each an exact machine of its own.
 */
import type { HazardRequest } from "@/lib/throw";
import { seeded } from "../random-machines";
import { farthestOf, type Load, type Machine } from "./exact";
import { ENDS, type End, type Farthest } from "./search";

export interface Side {
  name: string;
  plus: number;
}
/** −1 to 1 by parameter. */
export type Point = number[];
export type Best = Record<End, { distance: number; t: number; point: Point }>;

/** Every parameter with a tolerance; `wide` are taken over one percent at least. */
export function sidesOf(request: HazardRequest, wide: readonly string[] = []): Side[] {
  const values: Record<string, unknown> = { ...request.machine, ...request.projectile };
  return Object.entries(request.tolerances ?? {}).flatMap(([name, plus]) => {
    const value = values[name];
    if (typeof value !== "number" || plus === 0 || name === "releaseAngle") return [];
    return [{ name, plus: wide.includes(name) ? Math.max(plus, 0.01 * Math.abs(value)) : plus }];
  });
}

export function machineAt(request: HazardRequest, sides: readonly Side[], point: Point) {
  const machine: Record<string, unknown> = { ...request.machine };
  const { mass, diameter, drag, lift } = request.projectile;
  if (!drag || lift === undefined) throw new Error("Give drag and lift.");
  const load: Load = { mass, diameter, drag: drag.low, lift };
  sides.forEach(({ name, plus }, i) => {
    if (name === "mass" || name === "diameter") load[name] += plus * point[i];
    else machine[name] = (machine[name] as number) + plus * point[i];
  });
  return { machine: machine as unknown as Machine, load };
}

const BELOW_ZERO_IS_NOTHING = [
  "troughFriction",
  "troughHeight",
  "armMass",
  "carriageMass",
  "counterweightInertia",
];

/** What the parameters say at a point; null where no such machine exists. */
export function throwsAt(
  request: HazardRequest,
  sides: readonly Side[],
  point: Point,
  resolution = 120,
): Farthest | null {
  const { machine, load } = machineAt(request, sides, point);
  const values = machine as unknown as Record<string, number>;
  for (const name of BELOW_ZERO_IS_NOTHING) if (values[name] < 0) values[name] = 0;
  try {
    return farthestOf(machine, load, request, resolution);
  } catch (error) {
    if (error instanceof Error && error.message.includes("too short")) return null;
    throw error;
  }
}

export class BoxAttack {
  readonly best: Best;
  machines = 0;

  constructor(
    readonly request: HazardRequest,
    readonly sides: readonly Side[],
  ) {
    const none = () => ({ distance: 0, t: Number.NaN, point: [] as Point });
    this.best = { forward: none(), backward: none(), firstForward: none(), firstBackward: none() };
  }

  try(point: Point): Farthest | null {
    const found = throwsAt(this.request, this.sides, point);
    if (!found) return null;
    this.machines++;
    for (const end of ENDS) {
      const { distance, t } = found[end];
      if (distance > this.best[end].distance) this.best[end] = { distance, t, point };
    }
    return found;
  }

  /**
   * Every corner of the parameters that move any of the throws most, each by its whole tolerance; the others as
   * declared, and each at the side that alone throws farther, for every one of the four ends.
   */
  corners(most = 6): void {
    const zero = this.sides.map(() => 0);
    const declared = this.try(zero);
    if (!declared) throw new Error("The declared machine does not exist.");
    const helpful = ENDS.map(() => zero.slice());
    const moved = this.sides.map((_, i) => {
      const at = (sign: number) => this.try(zero.map((_, j) => (i === j ? sign : 0)));
      const [low, high] = [at(-1), at(1)];
      const changes = ENDS.map((end, n) => {
        const base = declared[end].distance;
        const down = (low?.[end].distance ?? base) - base;
        const up = (high?.[end].distance ?? base) - base;
        helpful[n][i] = Math.max(up, down) <= 0 ? 0 : up > down ? 1 : -1;
        return Math.max(Math.abs(up), Math.abs(down)) / Math.max(1, base);
      });
      return { i, change: Math.max(...changes) };
    });
    moved.sort((a, b) => b.change - a.change);
    const chosen = moved.slice(0, most).map(({ i }) => i);
    const others = new Map(
      [zero, ...helpful].map((point) => {
        const rest = point.map((at, i) => (chosen.includes(i) ? 0 : at));
        return [rest.join(), rest];
      }),
    );
    for (const rest of others.values()) {
      for (let bits = 0; bits < 2 ** chosen.length; bits++) {
        const point = rest.slice();
        chosen.forEach((i, n) => {
          point[i] = bits & (1 << n) ? 1 : -1;
        });
        this.try(point);
      }
    }
  }

  draws(count: number, seed: number): void {
    const random = seeded(seed);
    for (let n = 0; n < count; n++) this.try(this.sides.map(() => 2 * random() - 1));
  }

  /** Uphill from the best points so far, a parameter at a time: harder than any draw. */
  climb(end: End, rounds: number): void {
    let step = 0.5;
    for (let round = 0; round < rounds; round++, step *= 0.6) {
      for (let i = 0; i < this.sides.length; i++) {
        for (const sign of [-1, 1]) {
          const { point } = this.best[end];
          const to = Math.min(1, Math.max(-1, point[i] + sign * step));
          if (to !== point[i]) this.try(point.map((at, j) => (i === j ? to : at)));
        }
      }
    }
  }
}
