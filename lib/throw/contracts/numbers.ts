/** The numbers that the contracts are made of: zod refuses what is not finite. */
import { z } from "zod";

export const finite = z.number();
/** Degrees. */
export const angle = finite.min(0).max(180);
export const metres = finite.min(0).max(10_000);

/** Two numbers that must rise. */
export const range = (least: number, largest: number) =>
  z
    .strictObject({ min: finite.min(least).max(largest), max: finite.min(least).max(largest) })
    .refine(({ min, max }) => min <= max, { path: ["max"], message: "The largest is below the least." });
