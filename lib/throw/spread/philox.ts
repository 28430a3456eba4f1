/**
 * A counter-based generator of random numbers: each draw follows from its number and the seed alone, so that any
 * thread may make any of them in any order and all get the same.
 * Source: J. K. Salmon, M. A. Moraes, R. O. Dror, D. E. Shaw, Parallel random numbers: as easy as 1, 2, 3, SC 2011:
 * Philox 4×32 with ten rounds.
 */
const MULTIPLIER_0 = 0xd2511f53;
const MULTIPLIER_1 = 0xcd9e8d57;
const WEYL_0 = 0x9e3779b9;
const WEYL_1 = 0xbb67ae85;
const ROUNDS = 10;

/** Upper 32 bits of the product of two unsigned numbers of 32 bits. */
function highProduct(a: number, b: number): number {
  const a0 = a & 0xffff;
  const a1 = a >>> 16;
  const b0 = b & 0xffff;
  const b1 = b >>> 16;
  const middle = a1 * b0 + ((a0 * b0) >>> 16);
  const carry = a0 * b1 + (middle % 0x10000);
  return (a1 * b1 + Math.floor(middle / 0x10000) + Math.floor(carry / 0x10000)) >>> 0;
}

/** Four words of 32 bits from a counter of four and a key of two, into `out`. */
export function philox(counter: Uint32Array, key0: number, key1: number, out: Uint32Array): void {
  let [c0, c1, c2, c3] = [counter[0], counter[1], counter[2], counter[3]];
  let k0 = key0 >>> 0;
  let k1 = key1 >>> 0;
  for (let round = 0; round < ROUNDS; round++) {
    const high0 = highProduct(MULTIPLIER_0, c0);
    const low0 = Math.imul(MULTIPLIER_0, c0) >>> 0;
    const high1 = highProduct(MULTIPLIER_1, c2);
    const low1 = Math.imul(MULTIPLIER_1, c2) >>> 0;
    c0 = (high1 ^ c1 ^ k0) >>> 0;
    c1 = low1;
    c2 = (high0 ^ c3 ^ k1) >>> 0;
    c3 = low0;
    k0 = (k0 + WEYL_0) >>> 0;
    k1 = (k1 + WEYL_1) >>> 0;
  }
  out[0] = c0;
  out[1] = c1;
  out[2] = c2;
  out[3] = c3;
}

/** Uniform numbers for draw after draw. */
export class Draws {
  private readonly counter = new Uint32Array(4);
  private readonly words = new Uint32Array(4);

  /** @param seed an integer from 0 to 2⁵³ */
  constructor(private readonly seed: number) {}

  /** The first `out.length` numbers of draw `index`, each uniform between −1 and 1, both excluded. */
  fill(index: number, out: Float64Array): void {
    const { counter, words, seed } = this;
    counter[1] = index;
    for (let i = 0; i < out.length; i++) {
      if (i % 4 === 0) {
        counter[0] = i / 4;
        philox(counter, seed % 0x1_0000_0000, Math.floor(seed / 0x1_0000_0000), words);
      }
      out[i] = (2 * words[i % 4] + 1) / 0x1_0000_0000 - 1;
    }
  }
}
