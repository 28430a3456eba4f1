/**
 * Whatever the contracts accept, the quick preview answers with finite numbers or refuses with a reason.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CannotThrow, MACHINE_KINDS, preview } from "@/lib/throw";
import { anyRequest } from "./any-request";

const CASES = process.env.FAIRTHROW_TEST_DEEP ? 20_000 : 1000;

/** Where an answer holds a number that is none. */
function unsound(value: unknown, path = ""): string | null {
  if (typeof value === "number") return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (value === null || typeof value !== "object") return null;
  if (ArrayBuffer.isView(value)) return unsound(Array.from(value as Float64Array), path);
  for (const [key, inner] of Object.entries(value)) {
    const found = unsound(inner, `${path}.${key}`);
    if (found) return found;
  }
  return null;
}

describe("any request that the contracts accept", () => {
  const met = new Map<string, number>();

  it(
    "is previewed with finite numbers or refused with a reason",
    () => {
      fc.assert(
        fc.property(anyRequest, ({ asked, request }) => {
          const { kind } = request.machine;
          let answered = false;
          try {
            expect(unsound(preview(request)), JSON.stringify(asked)).toBeNull();
            answered = true;
          } catch (error) {
            const refused = error instanceof CannotThrow || error instanceof RangeError;
            if (!refused || error.message.length < 20) throw error;
          }
          if (answered) met.set(kind, (met.get(kind) ?? 0) + 1);
        }),
        { numRuns: CASES, seed: 20_261_125, endOnFailure: true },
      );
    },
    CASES * 300,
  );

  it("came to an answer for every kind many times", () => {
    for (const { kind } of MACHINE_KINDS) expect(met.get(kind) ?? 0, kind).toBeGreaterThan(CASES / 100);
  });
});
