/** Brute force over release instants: every state of the swing is let go and flown, the best ones refined. */
import { type Landing, land } from "./flight";
import { inTheWorld, type Mechanism } from "./mechanism";
import { advance, type Segment, type State, type Swing } from "./swing";

export interface Throw {
  /** First impact from the firing point in the direction asked for, m; 0 when nothing goes that way. */
  distance: number;
  t: number;
  branch: string;
  slackSeen: boolean;
  state: State | null;
}

export interface Worst {
  forward: Throw;
  backward: Throw;
  firstForward: Throw;
  firstBackward: Throw;
  /** The highest that any release reaches, m; sampled, not refined. */
  apex: number;
}

export const release = (m: Mechanism, s: State, k: number): Landing => land(inTheWorld(m, s.q, s.v), k);

interface Sample {
  segment: Segment;
  index: number;
  x: number;
  apex: number;
}

/** Largest of sign·landing over the swing; `pastToo` counts hang-ups. */
function largest(swing: Swing, samples: Sample[][], k: number, sign: 1 | -1, pastToo: boolean): Throw {
  const m = swing.mechanism;
  let best: Throw = { distance: 0, t: Number.NaN, branch: "none", slackSeen: false, state: null };
  const offer = (state: State, x: number) => {
    if (sign * x <= best.distance) return;
    best = { distance: sign * x, t: state.t, branch: state.stop, slackSeen: state.slackSeen, state };
  };
  const peaks: { list: Sample[]; at: number; value: number }[] = [];
  for (const all of samples) {
    const list = all.filter((one) => pastToo || !one.segment.states[one.index].past);
    for (let i = 0; i < list.length; i++) {
      const value = sign * list[i].x;
      const higher = (j: number) => j >= 0 && j < list.length && sign * list[j].x > value;
      if (higher(i - 1) || higher(i + 1)) continue;
      peaks.push({ list, at: i, value });
      offer(list[i].segment.states[list[i].index], list[i].x);
    }
  }
  // A peak between samples rises little above them: only the highest few can win.
  peaks.sort((a, b) => b.value - a.value);
  for (const peak of peaks.slice(0, 6)) {
    const first = peak.list[Math.max(0, peak.at - 1)];
    const last = peak.list[Math.min(peak.list.length - 1, peak.at + 1)];
    const states = first.segment.states;
    const at = (t: number): State => {
      let i = first.index;
      while (i + 1 < last.index && states[i + 1].t <= t) i++;
      return t > states[i].t ? advance(m, states[i], t - states[i].t) : states[i];
    };
    let low = states[first.index].t;
    let high = states[last.index].t;
    for (let i = 0; i < 30 && high - low > 1e-9; i++) {
      const third = (high - low) / 3;
      const a = at(low + third);
      const b = at(high - third);
      const xa = release(m, a, k).x;
      const xb = release(m, b, k).x;
      offer(a, xa);
      offer(b, xb);
      if (sign * xa > sign * xb) high -= third;
      else low += third;
    }
  }
  return best;
}

/** `every` states are flown, the ends of each segment always. `k` is ½·ρ·C_d·A/m. */
export function bruteForce(swing: Swing, k: number, every = 4): Worst {
  const m = swing.mechanism;
  const samples = swing.segments.map((segment) =>
    segment.states.flatMap((state, index) => {
      if (index % every !== 0 && index !== segment.states.length - 1) return [];
      const { x, apex } = release(m, state, k);
      return [{ segment, index, x, apex }];
    }),
  );
  return {
    forward: largest(swing, samples, k, 1, true),
    backward: largest(swing, samples, k, -1, true),
    firstForward: largest(swing, samples, k, 1, false),
    firstBackward: largest(swing, samples, k, -1, false),
    apex: samples.flat().reduce((highest, sample) => Math.max(highest, sample.apex), 0),
  };
}
