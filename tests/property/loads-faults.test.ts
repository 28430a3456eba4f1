/** Loads and failures of random machines: finite whatever is asked, and the same however finely they are sampled. */
import fc from "fast-check";
import { expect, test } from "vitest";
import {
  faultSchema,
  type HazardRequest,
  hazardRequestSchema,
  loadsSchema,
  MACHINE_KINDS,
  strengthsSchema,
  sweepSchema,
} from "@/lib/throw";
import { workOut } from "@/lib/throw/case";
import { harm } from "@/lib/throw/faults/faults";
import { loads, type StrengthRequest } from "@/lib/throw/loads/loads";
import { requests } from "./machines";

const strengths = strengthsSchema.parse({
  sling: { ropeRating: 5000 },
  arm: {
    material: { wood: "douglas-fir" },
    sections: { pivot: { shape: "tube", diameter: 0.12, wall: 0.01 } },
    masses: [
      { at: 0.1, mass: 3 },
      { at: 0.5, mass: 2 },
    ],
  },
  frame: { mass: 200, footprint: 2, friction: 0.4 },
  stop: { stroke: 0.2, force: 5000 },
});

const withStrengths = (request: HazardRequest): StrengthRequest => ({ ...request, strengths });

/** zod refuses what is not finite. */
function holdsContract(request: StrengthRequest, frame: "held" | "rolling" = "held"): void {
  const worked = workOut(request, frame);
  const told = harm(request, worked);
  loadsSchema.parse(told.loads);
  if (told.sweep) sweepSchema.parse(told.sweep);
  for (const fault of told.faults) faultSchema.parse(fault);
}

test("every number told is finite, and keeps the contract", () => {
  fc.assert(
    fc.property(requests, fc.boolean(), (plain, declared) => {
      holdsContract(declared ? withStrengths(plain) : plain);
    }),
    { numRuns: 25, seed: 20261125 },
  );
});

/** The examples of every kind with every number a little off, leaning and on wheels where they can be. */
const varied = fc
  .record({
    kind: fc.constantFrom(...MACHINE_KINDS),
    share: fc.double({ min: 0.85, max: 1.15, noNaN: true }),
    which: fc.nat(30),
    leanAlong: fc.double({ min: -8, max: 8, noNaN: true }),
    wheels: fc.boolean(),
    shape: fc.constantFrom("pumpkin", "smooth-sphere"),
    gust: fc.constantFrom(0, 12),
    slope: fc.constantFrom(0, 6),
  })
  .map(({ kind, share, which, leanAlong, wheels, shape, gust, slope }) => {
    const numbers = Object.entries(kind.example).filter(([, value]) => typeof value === "number");
    const [name, value] = numbers[which % numbers.length];
    const stands = "base" in kind.example ? { leanAlong } : {};
    const base = "base" in kind.example && wheels ? { base: { frameMass: 150, footprint: 2 } } : {};
    return hazardRequestSchema.safeParse({
      machine: { ...kind.example, [name]: value * share, ...stands, ...base },
      projectile: { ...kind.exampleProjectile, shape },
      air: { wind: { speed: 0, gust } },
      terrain: { slope },
    });
  })
  .filter((parsed) => parsed.success)
  .map((parsed) => parsed.data as HazardRequest);

test("so it is for every kind, on wheels, leaning, in a gust, on ground that falls away", () => {
  fc.assert(
    fc.property(varied, fc.constantFrom("held", "rolling"), (request, frame) => {
      holdsContract(withStrengths(request), frame);
    }),
    { numRuns: 40, seed: 11 },
  );
});

/** All peaks of a machine's loads by name. */
function peaksOf(request: StrengthRequest, samples: number): Record<string, number> {
  const { sling, arm, pivot, hanger, stability } = loads(request, workOut(request), undefined, samples);
  const out: Record<string, number | undefined> = {
    tension: sling?.tension.throw?.value,
    hangUpTension: sling?.tension.hangUp?.value,
    moment: arm?.moment.throw?.value,
    hangUpMoment: arm?.moment.hangUp?.value,
    afterMoment: arm?.moment.after?.value,
    pivot: pivot?.force.throw?.value,
    hangUpPivot: pivot?.force.hangUp?.value,
    hanger: hanger?.force.hangUp?.value,
    front: stability?.front,
    rear: stability?.rear,
  };
  return Object.fromEntries(Object.entries(out).filter(([, value]) => value !== undefined)) as Record<
    string,
    number
  >;
}

test("peaks do not depend on the sampling", () => {
  fc.assert(
    fc.property(requests, (request) => {
      const [coarse, fine] = [peaksOf(withStrengths(request), 6), peaksOf(withStrengths(request), 12)];
      const scale = Math.max(Math.abs(fine.front ?? 0), Math.abs(fine.rear ?? 0));
      for (const [name, value] of Object.entries(fine)) {
        const size = name === "front" || name === "rear" ? scale : Math.abs(value);
        expect(Math.abs(coarse[name] - value), name).toBeLessThanOrEqual(0.01 * size + 1e-9);
      }
    }),
    { numRuns: 25, seed: 3 },
  );
});
