import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { FIRING_POINT, type FixInput, fixSchema, measure, type Site } from "@/lib/survey";
import { apart, at, FIRING, measured, peg, seen } from "../unit/survey-site";
import { between } from "./numbers";

// The same cases every time; new ones in the long run (npm run test:deep).
if (!process.env.FAIRTHROW_TEST_DEEP) fc.configureGlobal({ seed: 20261126, numRuns: 60 });

const place = fc.tuple(between(-300, 300), between(-300, 300));
const site = fc.array(place, { minLength: 3, maxLength: 5 }).map(
  (places): Site => ({
    firingPoint: FIRING,
    pegs: Object.fromEntries(
      places.map(([east, north], index) => [`p${index}`, peg(`P${index}`, east, north, 0.02)]),
    ),
  }),
);

const ids = ({ pegs }: Site) => Object.keys(pegs ?? {});

describe("exact measurements from any pegs", () => {
  it("by tapes find the point, or say that its place is in doubt", () => {
    fc.assert(
      fc.property(site, place, (field, [east, north]) => {
        const point = at(east, north);
        const entry: FixInput = {
          outcome: "landed",
          method: "tapes",
          tapes: [...ids(field), FIRING_POINT].map((from) => ({
            from,
            distance: seen(field, from, point).distance,
          })),
        };
        const { located, codes } = measured(entry, field);
        if (codes.length === 0) expect(apart(located.point, point)).toBeLessThan(1e-3);
      }),
    );
  });

  it("by bearings find the point, or say why not", () => {
    fc.assert(
      fc.property(site, place, (field, [east, north]) => {
        const point = at(east, north);
        const entry = {
          outcome: "landed",
          method: "bearings",
          bearings: ids(field).map((from) => ({
            from,
            bearing: seen(field, from, point).bearing,
            uncertainty: 0.1,
          })),
        };
        const { located, warnings } = measure(fixSchema.parse(entry), field);
        if (located === null || warnings.length > 0) expect(warnings[0]?.text).toMatch(/\.$/);
        else expect(apart(located.point, point)).toBeLessThan(5e-3);
      }),
    );
  });
});

describe("whatever is entered", () => {
  const distance = fc.oneof(between(0.01, 400), fc.constantFrom(0.001, 10_000));
  const bearing = between(0, 360);
  const from = fc.constantFrom("p0", "p1", "p2", FIRING_POINT, "unknown");
  const tape = fc.record({ from, distance });
  const sight = fc.record({ from, bearing });
  const outcome = fc.constant("landed");
  const entry = fc.oneof(
    fc.record({
      outcome,
      method: fc.constant("tapes"),
      tapes: fc.array(tape, { minLength: 3, maxLength: 6 }),
    }),
    fc.record({
      outcome,
      method: fc.constant("two-tapes"),
      tapes: fc.array(tape, { minLength: 2, maxLength: 2 }),
      side: fc.constantFrom("left", "right"),
    }),
    fc.record({
      outcome,
      method: fc.constant("bearings"),
      bearings: fc.array(sight, { minLength: 2, maxLength: 5 }),
    }),
    fc.record({
      outcome,
      method: fc.constant("laser"),
      from,
      range: distance,
      inclination: between(-89, 89),
      bearing,
    }),
    fc.record({
      outcome,
      method: fc.constant("centreline-offset"),
      centreline: bearing,
      along: between(-200, 400),
      offset: between(0, 100),
      side: fc.constantFrom("left", "right"),
    }),
  );

  it("gives a place with finite uncertainties, or a sentence", () => {
    fc.assert(
      fc.property(site, entry, (field, typed) => {
        const { located, warnings } = measure(fixSchema.parse(typed), field);
        if (!located) {
          expect(warnings).toHaveLength(1);
          return;
        }
        const [ee, en, nn] = located.covariance;
        for (const value of [ee, en, nn, located.mark, located.uncertainty, located.bearing])
          expect(Number.isFinite(value)).toBe(true);
        expect(ee * nn - en * en).toBeGreaterThanOrEqual(-1e-9 * ee * nn);
        for (const { value, normalised } of located.residuals)
          expect(Number.isFinite(value * normalised)).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
