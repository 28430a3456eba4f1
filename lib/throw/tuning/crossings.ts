/** Where one knob must stand for the throw to land at a distance, all others as they are. */
import type { HazardRequest } from "../contracts/request";
import type { Thrower } from "./evaluate";
import { withValue } from "./knobs";

export interface Range {
  /** Of a knob. */
  name: string;
  low: number;
  high: number;
}

/** Parts of a range that are looked into for a crossing each. */
const PARTS = 16;
const HALVINGS = 30;

export class Crossings {
  /** @param within m: what lands so near hits; what only jumps over the distance does not */
  constructor(
    private readonly request: HazardRequest,
    private readonly thrower: Pick<Thrower, "distance">,
    private readonly distance: number,
    private readonly within: number,
  ) {}

  /** The ranges, that first which moves the declared machine's distance farthest from end to end. */
  byReach<One extends Range>(ranges: readonly One[]): One[] {
    const reach = (range: One) => {
      const thrown = this.sampled(this.request, range).filter(({ off }) => off !== null);
      const [first, last] = [thrown[0]?.off ?? 0, thrown.at(-1)?.off ?? 0];
      return Math.abs(last - first);
    };
    const known = new Map(ranges.map((range) => [range, reach(range)]));
    return [...ranges].sort((a, b) => (known.get(b) ?? 0) - (known.get(a) ?? 0));
  }

  /** The values of a knob at which the request's throw lands on the distance. */
  of(request: HazardRequest, range: Range): number[] {
    const samples = this.sampled(request, range);
    const out: number[] = [];
    for (let i = 1; i < samples.length; i++) {
      const [a, b] = [samples[i - 1], samples[i]];
      if (a.off === null || b.off === null || a.off < 0 === b.off < 0) continue;
      const value = this.between(request, range.name, a.value, b.value, a.off);
      if (value !== null) out.push(value);
    }
    return out;
  }

  private sampled(request: HazardRequest, { name, low, high }: Range) {
    return Array.from({ length: PARTS + 1 }, (_, i) => {
      const value = low + ((high - low) * i) / PARTS;
      return { value, off: this.off(request, name, value) };
    });
  }

  private off(request: HazardRequest, name: string, value: number): number | null {
    const thrown = this.thrower.distance(withValue(request, name, value));
    return thrown === null ? null : thrown - this.distance;
  }

  /** Halves between two values on either side of the distance; null where it is jumped over. */
  private between(
    request: HazardRequest,
    name: string,
    from: number,
    to: number,
    offFrom: number,
  ): number | null {
    let [a, b] = [from, to];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (a + b) / 2;
      const off = this.off(request, name, middle);
      if (off === null) return null;
      // Well within what counts as a hit, so that what is told can be rounded.
      if (Math.abs(off) < 0.1 * this.within) return middle;
      if (off < 0 === offFrom < 0) a = middle;
      else b = middle;
    }
    return null;
  }
}
