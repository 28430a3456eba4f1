import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Dimension,
  formatNumber,
  formatQuantity,
  parseQuantity,
  toSI,
  type UnitSystem,
  unitLabel,
  unitOf,
} from "@/lib/units";

// The same cases every time; new ones in the long run (npm run test:deep).
if (!process.env.FAIRTHROW_TEST_DEEP) fc.configureGlobal({ seed: 20261125 });

const DIMENSIONS: Dimension[] = [
  "length",
  "distance",
  "mass",
  "angle",
  "speed",
  "inertia",
  "ratio",
  "pressure",
  "time",
  "energy",
  "area",
  "force",
  "volume",
];
const dimension = fc.constantFrom(...DIMENSIONS);
const system = fc.constantFrom<UnitSystem>("metric", "us");
const size = fc.double({ min: -1e5, max: 1e5, noNaN: true });

function parsed(text: string, of: Dimension, inSystem: UnitSystem): number {
  const result = parseQuantity(text, of, inSystem);
  if (!result.ok) throw new Error(`${text}: ${result.message}`);
  return result.value;
}

/** One unit shown, as a difference in SI; of a US length an inch. */
function shownStep(of: Dimension, inSystem: UnitSystem): number {
  if (of === "length" && inSystem === "us") return 0.0254;
  return toSI(1, unitOf(of, unitLabel(of, inSystem)));
}

describe("what is written is read back", () => {
  it("within half of the last digit asked for", () => {
    fc.assert(
      fc.property(size, dimension, system, fc.integer({ min: 0, max: 4 }), (si, of, inSystem, digits) => {
        const text = formatQuantity(si, of, inSystem, { digits });
        const half = 0.5 * 10 ** -digits * shownStep(of, inSystem);
        expect(Math.abs(parsed(text, of, inSystem) - si)).toBeLessThanOrEqual(
          half * 1.0001 + Math.abs(si) * 1e-14,
        );
      }),
    );
  });

  it("within a quarter of the uncertainty told, and with no digit that it drowns", () => {
    fc.assert(
      fc.property(
        size,
        dimension,
        system,
        fc.double({ min: 1e-3, max: 10, noNaN: true }),
        (si, of, inSystem, uncertainty) => {
          const text = formatQuantity(si, of, inSystem, { uncertainty });
          expect(Math.abs(parsed(text, of, inSystem) - si)).toBeLessThanOrEqual(uncertainty * 0.25);
          if (of === "length" && inSystem === "us") return;
          const decimals = /\.(\d+)/.exec(text)?.[1]?.length ?? 0;
          expect(10 ** -decimals).toBeGreaterThan(Math.min(1, uncertainty / shownStep(of, inSystem)) / 31);
        },
      ),
    );
  });

  it("in a field to 4 digits where it was converted", () => {
    fc.assert(
      fc.property(size, dimension, system, (si, of, inSystem) => {
        const back = parsed(formatNumber(si, of, inSystem), of, inSystem);
        const tolerance =
          of === "length" && inSystem === "us"
            ? Math.max(0.00051 * 0.0254, Math.abs(si) * 5.1e-4)
            : Math.abs(si) * 5.1e-4 + 1e-12 * shownStep(of, inSystem);
        expect(Math.abs(back - si)).toBeLessThanOrEqual(tolerance);
      }),
    );
  });

  it("temperatures too", () => {
    fc.assert(
      fc.property(fc.double({ min: 180, max: 340, noNaN: true }), system, (kelvin, inSystem) => {
        const back = parsed(formatQuantity(kelvin, "temperature", inSystem), "temperature", inSystem);
        expect(Math.abs(back - kelvin)).toBeLessThanOrEqual(0.0501);
      }),
    );
  });
});

describe("whatever is typed", () => {
  const typed = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc
      .array(
        fc.constantFrom(
          "1",
          "12",
          "3.5",
          "1,234",
          "0",
          "/",
          "-",
          "'",
          '"',
          " ",
          "ft",
          "in",
          "m",
          "kg",
          ",",
          ".",
          "e",
          "½",
          "²",
          "°",
          "+",
          "and",
        ),
        { maxLength: 8 },
      )
      .map((parts) => parts.join("")),
  );

  it("is a finite value, or a sentence; and choices are finite and differ", () => {
    fc.assert(
      fc.property(typed, dimension, system, (text, of, inSystem) => {
        const result = parseQuantity(text, of, inSystem);
        if (result.ok) {
          expect(Number.isFinite(result.value)).toBe(true);
          expect(text).toMatch(/[\d½]/);
        } else {
          expect(result.message).toMatch(/[.]$/);
          for (const choice of result.choices ?? []) expect(Number.isFinite(choice.value)).toBe(true);
          if (result.reason === "ambiguous") expect((result.choices ?? []).length).toBeGreaterThan(1);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it("never loses a part: a known text with something added is not read as the text alone", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("12 ft 6 in", "3,5 m", "40 cm"),
        fc.constantFrom("x", "?", "7", "kg", "/", "^"),
        (text, extra) => {
          const result = parseQuantity(`${text} ${extra}`, "length", "us");
          expect(result.ok).toBe(false);
        },
      ),
    );
  });
});
