/** The farthest of all release instants of one exact machine, forwards and backwards, all of them and the first pass. */
import { airlessTime, cubic, landsAt, type QuickAir } from "./flight";
import { type Run, STRIDE } from "./swing";

export const ENDS = ["forward", "backward", "firstForward", "firstBackward"] as const;
export type End = (typeof ENDS)[number];

export interface Far {
  distance: number;
  t: number;
}
export type Farthest = Record<End, Far>;

/** The airs that blow each way: the gust helping, lift of either sign. */
export interface Airs {
  forward: QuickAir[];
  backward: QuickAir[];
}

/** Samples flown in between two neighbours of the best. */
const REFINE = 6;
/** Of the samples, one in so many is flown first; then the neighbours of the best. */
const EVERY = 3;

/**
 * A subset of the instants can only miss distance, never invent it: without air a throw goes farther than with it
 * (unless the wind or the lift carries it), so only those are flown that could win.
 */
function farthest(run: Run, airs: readonly QuickAir[], sign: 1 | -1, pastToo: boolean): Far {
  const { samples: s, count, past, starts } = run;
  const best: Far = { distance: 0, t: Number.NaN };
  const [air] = airs;
  const reach = new Float64Array(count);
  let top = -1;
  for (let i = 0; i < count; i++) {
    reach[i] = Number.NEGATIVE_INFINITY;
    if (!pastToo && past[i]) continue;
    const j = i * STRIDE;
    reach[i] = sign * (s[j + 1] + s[j + 3] * airlessTime(air, s[j + 1], s[j + 2], s[j + 3], s[j + 4]));
    if (top < 0 || reach[i] > reach[top]) top = i;
  }
  if (top < 0) return best;
  const carried = airs.some((one) => one.wind !== 0 || one.lift !== 0);
  const tries: { i: number; value: number; air: QuickAir }[] = [];
  for (const one of airs) {
    const at = (i: number) => {
      const j = i * STRIDE;
      return sign * landsAt(one, s[j + 1], s[j + 2], s[j + 3], s[j + 4]);
    };
    let most = at(top);
    const values = new Map<number, number>([[top, most]]);
    const fly = (i: number) => {
      if (i < 0 || i >= count || reach[i] < (carried ? 0.3 : 0.97) * most || values.has(i)) return;
      const value = at(i);
      values.set(i, value);
      if (value > most) most = value;
    };
    for (const start of starts) {
      fly(start);
      fly(start - 1);
    }
    for (let i = 0; i < count; i += EVERY) fly(i);
    for (const [i, value] of [...values]) {
      if (value < 0.93 * most) continue;
      for (let near = 1; near < EVERY; near++) {
        fly(i - near);
        fly(i + near);
      }
    }
    for (const [i, value] of values) if (value > 0.97 * most) tries.push({ i, value, air: one });
  }
  tries.sort((a, b) => b.value - a.value);
  const offer = (distance: number, t: number) => {
    if (distance > best.distance) Object.assign(best, { distance, t });
  };
  const refined: number[] = [];
  for (const one of tries) {
    offer(one.value, s[one.i * STRIDE]);
    if (refined.length >= 4) break;
    if (refined.some((i) => Math.abs(i - one.i) <= 2)) continue;
    refined.push(one.i);
    for (const left of [one.i - 1, one.i]) refine(run, left, one.air, sign, pastToo, offer);
  }
  return best;
}

function refine(
  { samples: s, count, starts, past }: Run,
  left: number,
  air: QuickAir,
  sign: 1 | -1,
  pastToo: boolean,
  offer: (distance: number, t: number) => void,
) {
  if (left < 0 || left + 1 >= count || starts.includes(left + 1)) return;
  if (!pastToo && (past[left] || past[left + 1])) return;
  const a = left * STRIDE;
  const b = a + STRIDE;
  const h = s[b] - s[a];
  for (let n = 1; n < REFINE; n++) {
    const f = n / REFINE;
    const at = (value: number, rate: number) =>
      cubic(f, h, s[a + value], s[a + rate], s[b + value], s[b + rate]);
    offer(sign * landsAt(air, at(1, 3), at(2, 4), at(3, 5), at(4, 6)), s[a] + f * h);
  }
}

export function searchInstants(run: Run, airs: Airs): Farthest {
  return {
    forward: farthest(run, airs.forward, 1, true),
    backward: farthest(run, airs.backward, -1, true),
    firstForward: farthest(run, airs.forward, 1, false),
    firstBackward: farthest(run, airs.backward, -1, false),
  };
}
