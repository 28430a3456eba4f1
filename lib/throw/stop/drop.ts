/**
 * A drop test that gives a stop the energy of the machine: the weight falls h and then the stop's own way s, so
 * m·g·(h + s) = W. Closed form.
 */

export interface DropStep {
  /** Of the whole energy. */
  share: number;
  /** Above the stop as it stands before, m; null when the weight's sinking into the stop alone gives more. */
  height: number | null;
  /** With which it strikes, m/s. */
  speed: number | null;
}

export interface DropTest {
  mass: number;
  steps: DropStep[];
  /** Within which nobody stands, m. */
  clear: number | null;
}

/** Up to a quarter beyond what arrives. Common practice, no source. */
const SHARES = [0.25, 0.5, 1, 1.25];
/** A height that people can rig and see. Common practice, no source. */
const USUAL_HEIGHT = 1.5;
/** Nobody within twice the height and five metres. Common practice, no source: the safety officer sets it. */
const CLEAR = { times: 2, beyond: 5 };

/**
 * @param energy that the stop takes, what is driven into it included, J
 * @param stroke of the stop, m
 */
export function dropTest(energy: number, stroke: number, gravity: number, mass: number): DropTest {
  const steps = SHARES.map((share): DropStep => {
    // A stop that is hit with less gives less: as a spring, with the root of the energy.
    const way = stroke * Math.sqrt(share);
    const height = (share * energy) / (mass * gravity) - way;
    return height > 0
      ? { share, height, speed: Math.sqrt(2 * gravity * height) }
      : { share, height: null, speed: null };
  });
  const highest = Math.max(...steps.map(({ height }) => height ?? 0));
  return { mass, steps, clear: highest > 0 ? CLEAR.times * highest + CLEAR.beyond : null };
}

/** A weight that gives the energy from a height that can be rigged, kg. */
export const usualMass = (energy: number, stroke: number, gravity: number): number =>
  Number((energy / (gravity * (USUAL_HEIGHT + stroke))).toPrecision(2));
