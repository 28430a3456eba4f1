/**
 * The sling tears, at every instant, and the machine swings on unloaded: what meets the stop, with what energy, and
 * every pose that it passes through on the way.
 */
import type { Lives } from "../loads/lives";
import { Peaks } from "../loads/peaks";
import { modeOf } from "../loads/pose";
import { kineticEnergy, machineEnergy, type Unloaded } from "../loads/unloaded";

/** Instants at which the sling tears that are followed to the end; the best is then refined between its neighbours. */
const INSTANTS = 32;
/** The same for a machine without a stop, where only the poses are wanted. */
const INSTANTS_WITHOUT_STOP = 12;
const REFINEMENTS = 8;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

export interface Tear {
  /** s from the trigger. */
  at: number;
  /** Kinetic energy on arrival at the stop, J. */
  energy: number;
  /** Of the arm on arrival, rad/s. */
  rate: number;
  /** When it arrives, s from the trigger. */
  arrives: number;
}

export interface Tears {
  /** What arrives at the stop with the most energy; null without a stop, or when nothing reaches it. */
  worst: Tear | null;
  /** After a dry fire, and after the throw as meant. */
  dryFire: Tear | null;
  meant: Tear | null;
  /** With the projectile held to the end, J; null when it does not get there. */
  held: number | null;
  /** Largest energy of arm and counterweight above the least that they can reach, J, and when the sling tears then. */
  largest: { energy: number; at: number };
  /** The same after a dry fire and after the throw as meant. */
  largestDryFire: number;
  largestMeant: number | null;
}

/**
 * @param least energy of the machine that it cannot go below, J, on the scale of machineEnergy
 * @param see is shown every unloaded run in turn; it may keep nothing of it
 */
export function tearsOf(
  lives: Lives,
  nominal: { step: number; fraction: number } | null,
  least: number,
  see: (run: Unloaded) => void,
): Tears {
  const { trace, unloaded, pose, locked } = lives;
  const { motion } = pose;
  const arrivalOf = (step: number, fraction: number): Tear | null => {
    const at = trace.begin(step) + fraction * trace.size(step);
    const mode = modeOf(trace, step);
    const run = unloaded.run(trace.phase(step), trace.stateAt(step, fraction), mode, at);
    see(run);
    const { arrival } = run;
    return arrival && { at, energy: arrival.energy, rate: arrival.rate, arrives: arrival.time };
  };
  const first = trace.segments[0];
  const stops = pose.setup.carrier.endStop !== null;
  const instants = instantsOf(lives, first.from, first.to, stops ? INSTANTS : INSTANTS_WITHOUT_STOP);
  const dryFire = arrivalOf(first.from, 0);
  const meant = nominal && !locked(nominal.step) ? arrivalOf(nominal.step, nominal.fraction) : null;
  let worst = dryFire;
  let best = 0;
  const offer = (tear: Tear | null) => {
    if (!tear || (worst && tear.energy <= worst.energy)) return false;
    worst = tear;
    return true;
  };
  offer(meant);
  instants.forEach((time, i) => {
    if (offer(arrivalOf(...placeOf(lives, time)))) best = i;
  });
  if (worst) {
    // Between the neighbours of the best: the energy is smooth there unless a jerk falls between them.
    let [a, b] = [instants[Math.max(0, best - 1)], instants[Math.min(instants.length - 1, best + 1)]];
    const at = (time: number) => {
      const tear = arrivalOf(...placeOf(lives, time));
      offer(tear);
      return tear?.energy ?? 0;
    };
    for (let i = 0; i < REFINEMENTS; i++) {
      const [left, right] = [b - GOLDEN * (b - a), a + GOLDEN * (b - a)];
      if (at(left) > at(right)) b = right;
      else a = left;
    }
  }
  const energyAt = (step: number, fraction: number) =>
    machineEnergy(motion, trace.phase(step), trace.stateAt(step, fraction)) - least;
  const largest = new Peaks(1, (step, fraction, out) => {
    out[0] = energyAt(step, fraction);
  }).add({ from: first.from, to: first.to, begin: 0, end: 1 }).found[0];
  const end = first.to - 1;
  return {
    worst,
    dryFire,
    meant,
    held: first.end === "stop" ? kineticEnergy(motion, trace.phase(end), trace.stateAt(end, 1)) : null,
    largest: {
      energy: largest.value,
      at: trace.begin(largest.step) + largest.fraction * trace.size(largest.step),
    },
    largestDryFire: energyAt(first.from, 0),
    largestMeant: nominal ? energyAt(nominal.step, nominal.fraction) : null,
  };
}

/** Instants spread over a part of the trace, with both sides of every change of phase among them. */
function instantsOf({ trace }: Lives, from: number, to: number, count: number): number[] {
  const out: number[] = [];
  const begin = trace.begin(from);
  const end = trace.begin(to - 1) + trace.size(to - 1);
  for (let i = 0; i <= count; i++) out.push(begin + ((end - begin) * i) / count);
  for (let step = from + 1; step < to; step++) {
    if (trace.phase(step) !== trace.phase(step - 1))
      out.push(trace.begin(step) * (1 - 1e-12), trace.begin(step));
  }
  return out.sort((a, b) => a - b);
}

/** Step and fraction of a time of the first segment. */
function placeOf({ trace }: Lives, time: number): [number, number] {
  const { from, to } = trace.segments[0];
  let step = from;
  while (step < to - 1 && trace.begin(step + 1) <= time) step++;
  return [step, Math.min(1, Math.max(0, (time - trace.begin(step)) / trace.size(step)))];
}
