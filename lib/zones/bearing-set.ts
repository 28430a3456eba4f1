/** Sets of quarter-degree bearings, one bit each, that can be turned. */
import { STEPS, STEPS_A_DEGREE } from "./profile";

const BITS = 32;
const WORDS = STEPS / BITS;

/** Clockwise from one bearing to another, both included, degrees true; a whole turn is 0 to 360. */
export interface BearingArc {
  from: number;
  to: number;
}

export class BearingSet {
  readonly #words = new Uint32Array(WORDS);

  has(step: number): boolean {
    return ((this.#words[step >> 5] >>> (step & 31)) & 1) === 1;
  }

  add(step: number): void {
    this.#words[step >> 5] |= 1 << (step & 31);
  }

  delete(step: number): void {
    this.#words[step >> 5] &= ~(1 << (step & 31));
  }

  fill(): void {
    this.#words.fill(~0);
  }

  copy(): BearingSet {
    const made = new BearingSet();
    made.#words.set(this.#words);
    return made;
  }

  /** Every bearing that is not in the set. */
  others(): BearingSet {
    const made = new BearingSet();
    for (let word = 0; word < WORDS; word++) made.#words[word] = ~this.#words[word];
    return made;
  }

  /** Adds every bearing of another set, turned clockwise by a number of steps, 0 to 1439. */
  addTurned(other: BearingSet, steps: number): void {
    const by = steps >> 5;
    const bits = steps & 31;
    for (let word = 0; word < WORDS; word++) {
      const value = other.#words[word];
      if (value === 0) continue;
      const at = word + by < WORDS ? word + by : word + by - WORDS;
      this.#words[at] |= value << bits;
      if (bits > 0) this.#words[at + 1 < WORDS ? at + 1 : 0] |= value >>> (BITS - bits);
    }
  }

  /** Whether any bearing of an arc is in the set. */
  meets({ from, to }: BearingArc): boolean {
    const first = from * STEPS_A_DEGREE;
    const count = ((to - from) * STEPS_A_DEGREE + STEPS) % STEPS;
    for (let step = 0; step <= count; step++) if (this.has((first + step) % STEPS)) return true;
    return to - from === 360 && this.arcs().length > 0;
  }

  /** Unbroken runs of bearings, clockwise from north. */
  arcs(): BearingArc[] {
    const has = (step: number) => this.has((step + STEPS) % STEPS);
    const arcs: BearingArc[] = [];
    for (let step = 0; step < STEPS; step++) {
      if (!has(step) || has(step - 1)) continue;
      let last = step;
      while (has(last + 1)) last++;
      arcs.push({ from: step / STEPS_A_DEGREE, to: (last % STEPS) / STEPS_A_DEGREE });
    }
    return arcs.length === 0 && has(0) ? [{ from: 0, to: 360 }] : arcs;
  }
}
