/** What a plain step of each number does to the throw as meant: "1° of pin is 4 m". */
import { type Dimension, toSI, type UnitSystem, unitOf } from "../../units";
import type { HazardRequest } from "../contracts/request";
import { machineKind } from "../machines/registry";
import { PROJECTILE_TOLERANCE, toleranceOf } from "../worst/box";
import { Thrower } from "./evaluate";
import { ARM_RATIO, isInRange, knobsOf, withValue } from "./knobs";

export interface Sensitivity {
  name: string;
  label: string;
  dimension: Dimension;
  /** SI; a plain number in the reader's units. */
  step: number;
  /** That step, as a number of `unit`. */
  steps: number;
  unit: string;
  /** m that a step up moves the first impact, by central differences; one-sided where the other side is not thrown. */
  change: number;
  /** m that a whole step up and a whole step down move it; null where nothing is thrown there. */
  up: number | null;
  down: number | null;
  /** Where the contract takes no whole step down, or up: there is no less than no friction. */
  end: "low" | "high" | null;
  /** smooth; a turning point, where either way costs (or gains); a jump within the step. */
  course: "smooth" | "turns" | "jumps";
}

type Plain = readonly [unit: string, large: number, small: number, smallUnit?: string];

/** One of these for what is large enough, else the small one. */
const PLAIN: Partial<Record<Dimension, Record<UnitSystem, Plain>>> = {
  length: { metric: ["cm", 1, 1, "mm"], us: ["in", 1, 0.125, "in"] },
  mass: { metric: ["kg", 1, 10, "g"], us: ["lb", 1, 1, "oz"] },
  angle: { metric: ["°", 1, 0.1], us: ["°", 1, 0.1] },
  speed: { metric: ["m/s", 1, 0.1], us: ["mph", 1, 0.1] },
};
const SHOWN: Partial<Record<Dimension, Record<UnitSystem, string>>> = {
  gauge: { metric: "bar", us: "psi" },
  force: { metric: "N", us: "lbf" },
  torque: { metric: "N·m", us: "lbf·ft" },
  stiffness: { metric: "N·m/rad", us: "lbf·ft/rad" },
  volume: { metric: "L", us: "gal" },
  inertia: { metric: "kg·m²", us: "lb·ft²" },
  rate: { metric: "rev/min", us: "rev/min" },
  time: { metric: "s", us: "s" },
  ratio: { metric: "", us: "" },
};
/** A plain step is no more than this share of what it is a step of. */
const MOST_SHARE = 0.1;

/** A step that people think in: 1 cm, 1 kg, 1°, else a power of ten below a twentieth of the value. */
export function plainStep(dimension: Dimension, value: number, system: UnitSystem) {
  const size = Math.abs(value);
  const plain = PLAIN[dimension]?.[system];
  if (plain) {
    const [unit, large, small, smallUnit = unit] = plain;
    const step = toSI(large, unitOf(dimension, unit));
    // Angles count from no zero of their own.
    if (dimension === "angle" || step <= MOST_SHARE * size || size === 0) return { step, steps: large, unit };
    return { step: toSI(small, unitOf(dimension, smallUnit)), steps: small, unit: smallUnit };
  }
  const unit = SHOWN[dimension]?.[system] ?? "";
  const one = unit === "" ? 1 : toSI(1, unitOf(dimension, unit));
  const steps = size > 0 ? 10 ** Math.floor(Math.log10(size / one / 20)) : 0.1;
  return { step: steps * one, steps: Number(steps.toPrecision(1)), unit };
}

/** Residuals of a parabola through half and whole steps beyond this share of the distance, and m, are a jump. */
const JUMP = { share: 0.01, least: 0.1 };

/** Of every number that moves the throw as meant, the largest effect first; empty where nothing is thrown. */
export function sensitivities(request: HazardRequest, system: UnitSystem): Sensitivity[] {
  const thrower = new Thrower(request);
  const present = thrower.distance(request);
  if (present === null) return [];
  return knobsOf(request)
    .flatMap(({ name, label, dimension, present: value }): Sensitivity[] => {
      const step = plainStep(dimension, value, system);
      const stepped = (steps: number) => withValue(request, name, value + steps * step.step);
      const at = (steps: number) => {
        const changed = stepped(steps);
        return isInRange(changed) ? thrower.distance(changed) : null;
      };
      const end = isInRange(stepped(-1)) ? (isInRange(stepped(1)) ? null : "high") : "low";
      const [down, halfDown, halfUp, up] = [at(-1), at(-0.5), at(0.5), at(1)];
      const moved = { up: up === null ? null : up - present, down: down === null ? null : down - present };
      const change = changeOf(moved);
      if (change === null && halfUp === null && halfDown === null) return [];
      const course = courseOf(present, { ...moved, halfUp, halfDown });
      const effect = Math.max(Math.abs(moved.up ?? 0), Math.abs(moved.down ?? 0));
      if (effect < 1e-6 * Math.abs(present) && up !== null && down !== null) return [];
      return [{ name, label, dimension, ...step, change: change ?? 0, ...moved, end, course }];
    })
    .sort((a, b) => effectOf(b) - effectOf(a));
}

/** The farthest that a step moves the first impact, m. */
export const effectOf = ({ up, down }: Pick<Sensitivity, "up" | "down">): number =>
  Math.max(Math.abs(up ?? 0), Math.abs(down ?? 0));

function changeOf({ up, down }: Pick<Sensitivity, "up" | "down">): number | null {
  if (up !== null && down !== null) return (up - down) / 2;
  return up ?? (down === null ? null : -down);
}

function courseOf(
  present: number,
  { up, down, halfUp, halfDown }: Record<"up" | "down" | "halfUp" | "halfDown", number | null>,
): Sensitivity["course"] {
  if (up === null || down === null || halfUp === null || halfDown === null) return "smooth";
  const [slope, bend] = [(up - down) / 2, (up + down) / 2];
  const off = (steps: number, distance: number) =>
    Math.abs(distance - present - slope * steps - bend * steps * steps);
  const residual = Math.max(off(0.5, halfUp), off(-0.5, halfDown));
  if (residual > JUMP.share * Math.abs(present) + JUMP.least) return "jumps";
  return up * down > 0 && Math.abs(bend) > Math.abs(slope) ? "turns" : "smooth";
}

/**
 * How far ordinary throws scatter about the one as meant, m: one standard deviation, every number by itself within its
 * declared or default ±, drawn evenly (JCGM 100, 4.3.7: ± / √3). Where a number may jump or nothing is thrown, the
 * whole of what happens there counts.
 */
export function scatter(request: HazardRequest, thrower = new Thrower(request)): number | null {
  const present = thrower.distance(request);
  if (present === null) return null;
  const { parameters } = machineKind(request.machine.kind);
  let square = 0;
  for (const { name, present: value } of knobsOf(request)) {
    if (name === ARM_RATIO) continue;
    const info = parameters.find((each) => each.name === name);
    const usual = info ? info.tolerance : { share: PROJECTILE_TOLERANCE };
    const from = info?.toleranceFrom ? (request.machine as never)[info.toleranceFrom] : undefined;
    const own = request.tolerances?.[name] ?? from;
    const sigma = (own ?? toleranceOf(request, name, value, usual)) / Math.sqrt(3);
    if (!(sigma > 0)) continue;
    for (const sign of [-1, 1]) {
      const there = withValue(request, name, value + sign * sigma);
      // No friction is less than none.
      if (isInRange(there)) square += ((thrower.distance(there) ?? 0) - present) ** 2 / 2;
    }
  }
  return Math.sqrt(square);
}
