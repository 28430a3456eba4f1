/**
 * The worst case over the tolerance box: for sixty random machines across the kinds every corner of the six most
 * sensitive parameters and 2 000 random draws inside, each flown from every release instant by the independent quick
 * simulator in ./independent/quick. None lands beyond the sheet, and the best of them reaches 97 % of it.
 */
import { expect, it } from "vitest";
import { FAIR_KINDS } from "./independent/quick/fair-machines";
import { prove } from "./independent/quick/proof";

const MACHINES = 60;
const DRAWS = 2000;

it.each(Array.from({ length: MACHINES }, (_, i) => [i, FAIR_KINDS[i % FAIR_KINDS.length]] as const))(
  "machine %d, %s",
  (seed) => {
    const { beyond, loose, machines } = prove(seed, DRAWS);
    expect(beyond).toEqual([]);
    expect(loose).toEqual([]);
    expect(machines).toBeGreaterThan(DRAWS);
  },
  600_000,
);
