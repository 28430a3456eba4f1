/** One sheet against the brute force over its box: what lands beyond it, and how near the best comes to it. */
import { type HazardRequest, type HazardSheet, hazardSheet } from "@/lib/throw";
import { seeded } from "../random-machines";
import { BoxAttack, machineAt, type Point, type Side, sidesOf } from "./box";
import { fairRequest } from "./fair-machines";
import { ENDS, type End } from "./search";

export interface Verdict {
  machine: string;
  end: End;
  sheet: number;
  own: number;
  /** In the parameters' own units. */
  corner: object;
}

/** Numerical error of the two codes together: share of the distance, and m. */
const SLACK = 1e-3;
const LEAST = 0.02;
/** Short of this nothing is claimed about tightness, m: a slip of a load from its trough. */
const SHORT = 2;

/** Machines tried about each that the sheet names, and how far off in each side of the box, of half its width. */
const NEIGHBOURS = 25;
const NEAR = 1e-3;

const stated = ({ worst }: HazardSheet): Record<End, number> => ({
  forward: worst.forward.distance,
  backward: worst.backward.distance,
  firstForward: worst.firstPass.forward.distance,
  firstBackward: worst.firstPass.backward.distance,
});

const throwsOf = ({ worst }: HazardSheet) => [
  worst.forward,
  worst.backward,
  worst.firstPass.forward,
  worst.firstPass.backward,
];

function pointOf(request: HazardRequest, sides: readonly Side[], corner: Record<string, number>): Point {
  const values: Record<string, unknown> = { ...request.machine, ...request.projectile };
  return sides.map(({ name, plus }) => {
    const at = corner[name];
    return at === undefined ? 0 : Math.max(-1, Math.min(1, (at - (values[name] as number)) / plus));
  });
}

/** @returns the ends where a machine of the box lands beyond the sheet, and those where none reaches 97 % of it */
export function prove(seed: number, draws: number, kinds?: readonly string[]) {
  const request = fairRequest(seed, kinds);
  const sheet = hazardSheet(request);
  // Where half a percent moves the worst by 3 % the sheet calls its own distance a guess: there it is only held.
  const steep = sheet.worst.sensitive.length > 0;
  const wide = sheet.worst.sensitive.map(({ parameter }) => parameter);
  const attack = new BoxAttack(request, sidesOf(request, wide));
  attack.corners();
  attack.draws(draws, seed);
  // Narrow peaks that no draw meets: the machine that the sheet names must throw so far here too.
  // At the border of a graze the last digit decides: machines within a thousandth of its tolerances count as it.
  const random = seeded(seed + 1);
  for (const { corner } of throwsOf(sheet)) {
    const point = pointOf(request, attack.sides, corner);
    attack.try(point);
    for (let i = 0; i < NEIGHBOURS; i++) {
      attack.try(point.map((at) => Math.max(-1, Math.min(1, at + NEAR * (2 * random() - 1)))));
    }
  }
  const beyond: Verdict[] = [];
  const loose: Verdict[] = [];
  const { kind } = request.machine;
  const at = (point: Point) => {
    if (point.length === 0) return {};
    const { machine, load } = machineAt(request, attack.sides, point);
    return { machine, load };
  };
  for (const end of ENDS) {
    const { distance, point } = attack.best[end];
    const limit = stated(sheet)[end];
    const verdict = { machine: `${kind} ${seed}`, end, sheet: limit, own: distance, corner: at(point) };
    if (distance > limit * (1 + SLACK) + LEAST) beyond.push(verdict);
    else if (distance < 0.97 * limit && limit > SHORT && !steep) loose.push(verdict);
  }
  return { beyond, loose, machines: attack.machines };
}
