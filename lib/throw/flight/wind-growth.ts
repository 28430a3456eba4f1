/**
 * The power law of the wind's growth with height, levelled off near the ground: (h² + floor²)^(1/14), the part of it
 * that does not depend on the anemometer. Asked for at every step of every flight, so it is read from a cubic between
 * tabulated heights and then refined by one step of Halley's method for the fourteenth root: right to rounding, in a
 * third of the time of a logarithm and an exponential.
 */
import { WIND_EXPONENT } from "../../earth";

/**
 * Near the ground the wind levels off at its value here, m: never less than the power law, which is not meant
 * for the grass and would make every landing costly to follow.
 */
const WIND_FLOOR = 2;

/** Heights are tabulated every 1/8 m up to 256 m. */
const PER_METRE = 8;
const HIGHEST = 256;
/** The root to be taken: twice the seventh of the power law. */
const ROOT = Math.round(2 / WIND_EXPONENT);

const general = (squared: number) => Math.exp(0.5 * WIND_EXPONENT * Math.log(squared));

/** Value and slope over one interval at each height, one after the other. */
const table = new Float64Array(2 * (PER_METRE * HIGHEST + 2));
for (let i = 0; 2 * i < table.length; i++) {
  const height = i / PER_METRE;
  const squared = height * height + WIND_FLOOR * WIND_FLOOR;
  table[2 * i] = general(squared);
  table[2 * i + 1] = (WIND_EXPONENT * height * general(squared)) / squared / PER_METRE;
}

/** (h² + floor²)^(half the exponent of the power law), h in m. */
export function windPower(height: number): number {
  const squared = height * height + WIND_FLOOR * WIND_FLOOR;
  const up = Math.abs(height) * PER_METRE;
  if (!(up < PER_METRE * HIGHEST) || ROOT !== 14) return general(squared);
  const i = up | 0;
  const s = up - i;
  const from = table[2 * i];
  const slope = table[2 * i + 1];
  const rise = table[2 * i + 2] - from;
  const slopeTo = table[2 * i + 3];
  const guess = from + s * (slope + s * (3 * rise - 2 * slope - slopeTo + s * (slope + slopeTo - 2 * rise)));
  const guess2 = guess * guess;
  const guess4 = guess2 * guess2;
  const power = guess4 * guess4 * guess4 * guess2;
  return guess + (2 * guess * (squared - power)) / (15 * power + 13 * squared);
}
