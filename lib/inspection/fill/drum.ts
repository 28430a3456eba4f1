/** How much is in a part-filled drum, and where its centre lies. m, m³; the fill's top is level. Closed forms. */

export type Stands = "upright" | "lying";

export interface Drum {
  /** Inside, m. */
  diameter: number;
  /** Inside, along its axis, m. */
  length: number;
  stands: Stands;
}

/** Inside height from bottom to top as it stands, m. */
export const drumHeight = ({ diameter, length, stands }: Drum): number =>
  stands === "upright" ? length : diameter;

export const drumVolume = ({ diameter, length }: Drum): number => (Math.PI / 4) * diameter ** 2 * length;

export interface Filled {
  volume: number;
  /** Of the fill's centre above the inside bottom, m. */
  centre: number;
}

/**
 * @param depth of the fill above the inside bottom, m, kept between empty and full. A lying drum holds the segment of a
 * circle: with the angle θ that its level cuts off, ½r²(θ − sin θ), its centre 4r·sin³(θ/2) / 3(θ − sin θ) below the axis.
 */
export function filledTo(drum: Drum, depth: number): Filled {
  const { diameter, length, stands } = drum;
  const h = Math.min(drumHeight(drum), Math.max(0, depth));
  if (stands === "upright") return { volume: (Math.PI / 4) * diameter ** 2 * h, centre: h / 2 };
  const r = diameter / 2;
  const theta = 2 * Math.acos(Math.max(-1, Math.min(1, (r - h) / r)));
  const segment = theta - Math.sin(theta);
  // Nearly empty the formula is 0/0; its limit is a parabola's, three fifths of the depth.
  const centre = theta < 1e-3 ? 0.6 * h : r - (4 * r * Math.sin(theta / 2) ** 3) / (3 * segment);
  return { volume: ((r * r) / 2) * segment * length, centre };
}

/** How deep a volume fills it, m; null when it does not go in. Halving, to a thousandth of a millimetre. */
export function depthFor(drum: Drum, volume: number): number | null {
  const whole = drumVolume(drum);
  if (volume > whole * (1 + 1e-9)) return null;
  let [low, high] = [0, drumHeight(drum)];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (filledTo(drum, middle).volume < volume) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
