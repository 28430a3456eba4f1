/**
 * The error of satellite positions, as common practice has it (no source): part of it is the same for minutes (orbits,
 * the air above, echoes off what stands around) and no averaging on the spot takes it away; the rest fades with a
 * correlation of about a minute. Half of what stays is common to all receivers on the field at the time, so ten phones
 * do not mend it either.
 */
import { type Contribution, own } from "../budget";

export const RECEIVERS = ["phone", "survey"] as const;
export type ReceiverKind = (typeof RECEIVERS)[number];

export const SATELLITES = {
  /** Of one position's standard uncertainty: what stays however long it is averaged. */
  biasShare: 0.7,
  /** m along each axis, below which it never falls: a phone, and a surveyor's receiver with its corrections. */
  biasFloor: { phone: 1, survey: 0.01 },
  /** s, after which the rest has forgotten itself by e. */
  correlationTime: 60,
  /** Of the variance of what stays: common to all receivers. */
  commonShare: 0.5,
} as const;

/** Standard uncertainty along each axis of what no averaging takes away, m, from that of one position. */
export function receiverBias(single: number, kind: ReceiverKind): number {
  return Math.max(SATELLITES.biasFloor[kind], SATELLITES.biasShare * single);
}

/**
 * What is left of the variance in the weighted mean of an exponentially correlated series: Σᵢⱼ wᵢ·wⱼ·e^(−|tᵢ−tⱼ|/τ) over
 * (Σ w)². `times` ascend, s.
 */
export function averagedShare(times: readonly number[], weights: readonly number[]): number {
  let sum = 0;
  let squares = 0;
  let products = 0;
  /** Σ of the weights before, each faded by the time since. */
  let faded = 0;
  times.forEach((time, index) => {
    const weight = weights[index] as number;
    const since = index === 0 ? 0 : time - (times[index - 1] as number);
    faded *= Math.exp(-since / SATELLITES.correlationTime);
    products += weight * faded;
    squares += weight * weight;
    faded += weight;
    sum += weight;
  });
  return (squares + 2 * products) / (sum * sum);
}

/** The budget of a position that is off by a lasting part and by the rest, m along each axis. */
export function receiverBudget(bias: number, rest: number): Contribution[] {
  const common = Math.sqrt(SATELLITES.commonShare) * bias;
  const each = Math.hypot(rest, Math.sqrt(1 - SATELLITES.commonShare) * bias);
  return [
    { source: "satellites east", shared: true, east: common, north: 0 },
    { source: "satellites north", shared: true, east: 0, north: common },
    own("receiver east", each, 0),
    own("receiver north", 0, each),
  ];
}
