/**
 * The worst case over the tolerance box against the independent quick simulator in ./independent/quick: every corner
 * of the six most sensitive parameters and random draws inside, for one machine of every kind. Sixty machines and
 * 2 000 draws each in tolerance-box.deep.test.ts.
 */
import { expect, it } from "vitest";
import { FAIR_KINDS } from "./independent/quick/fair-machines";
import { prove } from "./independent/quick/proof";

const DRAWS = 30;

it.each(FAIR_KINDS.map((kind, i) => [kind, i] as const))(
  "holds and is tight for a %s",
  (_kind, seed) => {
    const { beyond, loose, machines } = prove(seed, DRAWS);
    expect(beyond).toEqual([]);
    expect(loose).toEqual([]);
    expect(machines).toBeGreaterThan(DRAWS);
  },
  240_000,
);
