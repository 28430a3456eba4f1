/**
 * Way and peak force of a stop. It takes what arrives and what goes on being driven into it: E + D·s. Its mean force is
 * a share of its peak, the efficiency: 1 for one that crushes evenly (F = E/s), ½ for a linear spring (F = 2E/s, closed
 * form).
 */
import type { StopInput, StopKind } from "./contract";

interface StopType {
  /** Mean over peak force. */
  efficiency: number;
  /** Share of its own thickness by which it can be pressed; null where that means nothing. */
  usable: number | null;
  /** Whether it pushes back what it took. */
  rebounds: boolean;
  /** Where the efficiency is from. */
  source: string;
}

const PRACTICE = "common practice, no source";

export const STOP_TYPES: Record<Exclude<StopKind, "curve">, StopType> = {
  crush: { efficiency: 0.8, usable: 0.7, rebounds: false, source: PRACTICE },
  timber: {
    efficiency: 0.5,
    usable: null,
    rebounds: true,
    source: "by the formula of what bends and springs back",
  },
  rubber: { efficiency: 0.4, usable: 0.5, rebounds: true, source: PRACTICE },
  "rope-loop": { efficiency: 0.45, usable: null, rebounds: true, source: PRACTICE },
  spring: { efficiency: 0.5, usable: null, rebounds: true, source: "by the formula of a spring" },
};

export interface Absorbed {
  kind: StopKind;
  efficiency: number;
  source: string;
  rebounds: boolean;
  /** Way over which it brakes, m, and its peak force, N; both null when nothing within the limit brakes it. */
  stroke: number | null;
  force: number | null;
  /** What it takes in all, its own way included, J. */
  energy: number | null;
  /** Greatest, as multiples of gravity; null without a moving mass. */
  deceleration: number | null;
  /** Thickness that leaves that way, m. */
  thickness: number | null;
}

/** One kind of stop under the input's limit. */
export function absorb(input: StopInput, kind: StopKind): Absorbed {
  if (kind === "curve") return alongCurve(input);
  const type = STOP_TYPES[kind];
  const efficiency = (kind === input.kind ? input.efficiency : undefined) ?? type.efficiency;
  const { energy, drive, limit } = input;
  let stroke: number | null;
  if (limit.by === "stroke") stroke = limit.stroke;
  else {
    const braking = efficiency * forceAllowed(input) - drive;
    stroke = braking > 0 ? energy / braking : null;
  }
  const force = stroke === null ? null : (energy / stroke + drive) / efficiency;
  return {
    kind,
    efficiency,
    source: input.efficiency !== undefined && kind === input.kind ? "as you gave it" : type.source,
    rebounds: type.rebounds,
    ...answer(input, stroke, force),
    thickness: stroke === null || type.usable === null ? null : stroke / type.usable,
  };
}

/** The peak force that the limit leaves, N: what brakes the mass, and what holds against the drive. */
function forceAllowed({ limit, movingMass = 0, drive, gravity }: StopInput): number {
  if (limit.by === "force") return limit.force;
  if (limit.by === "deceleration") return movingMass * gravity * limit.deceleration + drive;
  return Number.POSITIVE_INFINITY;
}

function answer(
  { energy, drive, movingMass, gravity }: StopInput,
  stroke: number | null,
  force: number | null,
): Pick<Absorbed, "stroke" | "force" | "energy" | "deceleration"> {
  if (stroke === null || force === null)
    return { stroke: null, force: null, energy: null, deceleration: null };
  const deceleration = movingMass === undefined ? null : (force - drive) / (movingMass * gravity);
  return { stroke, force, energy: energy + drive * stroke, deceleration };
}

/** Along measured points, straight between them: it brakes where the work done is what it must take. */
function alongCurve(input: StopInput): Absorbed {
  const { energy, drive, curve = [], limit } = input;
  let stroke: number | null = null;
  let force: number | null = null;
  let work = 0;
  let peak = curve[0]?.force ?? 0;
  for (let i = 1; i < curve.length && stroke === null; i++) {
    const [a, b] = [curve[i - 1], curve[i]];
    const length = b.stroke - a.stroke;
    const slope = (b.force - a.force) / length;
    const net = a.force - drive;
    const left = energy - work;
    const gained = net * length + 0.5 * slope * length ** 2;
    // Where the force falls below the drive on the way, the most work is done before the end.
    const most = slope < 0 && net > 0 && net + slope * length < 0 ? net ** 2 / (-2 * slope) : gained;
    if (most >= left) {
      const x = firstRoot(slope / 2, net, -left);
      stroke = a.stroke + x - (curve[0]?.stroke ?? 0);
      peak = Math.max(peak, a.force + slope * x);
      force = peak;
    } else {
      work += gained;
      peak = Math.max(peak, b.force);
    }
  }
  const within =
    stroke !== null &&
    force !== null &&
    (limit.by === "stroke" ? stroke <= limit.stroke : force <= forceAllowed(input));
  const met = within ? answer(input, stroke, force) : answer(input, null, null);
  return {
    kind: "curve",
    efficiency: met.energy === null ? 0 : met.energy / ((met.stroke as number) * (met.force as number)),
    source: "as measured",
    rebounds: true,
    ...met,
    thickness: null,
  };
}

/** Smallest positive root of a·x² + b·x + c with c < 0, where the sum rises to 0. */
function firstRoot(a: number, b: number, c: number): number {
  const root = Math.sqrt(Math.max(0, b * b - 4 * a * c));
  return (-2 * c) / (b + root);
}
