/**
 * Source: ASME B30.9, Slings: design factor 5 for synthetic slings (from memory). Half for knots and 15 % for water:
 * common practice, no source.
 */
import { expect, test } from "vitest";
import { slingStrengthSchema } from "@/lib/throw";
import { SLING_DESIGN_FACTOR, slingStrength } from "@/lib/throw/loads/materials";

const strengthOf = (declared: object) => slingStrength(slingStrengthSchema.parse(declared)).strength;

test("the design factor of synthetic slings", () => {
  expect(SLING_DESIGN_FACTOR).toBe(5);
});

test("a rope counts for half with knots, for less when wet, and cautiously for both unless declared otherwise", () => {
  const dry = { ropeRating: 10_000, knots: false, wet: false };
  expect(strengthOf(dry)).toBe(10_000);
  expect(strengthOf({ ...dry, knots: true })).toBe(5000);
  expect(strengthOf({ ...dry, wet: true })).toBe(8500);
  expect(strengthOf({ ropeRating: 10_000 })).toBe(4250);
  expect(strengthOf({ ropeRating: 10_000, legs: 2 })).toBe(8500);
});

test("a tested sling is taken at its breaking strength", () => {
  expect(strengthOf({ breakingStrength: 7000 })).toBe(7000);
});

test("a rating and a breaking strength together are refused", () => {
  expect(slingStrengthSchema.safeParse({ ropeRating: 1, breakingStrength: 1 }).success).toBe(false);
});
