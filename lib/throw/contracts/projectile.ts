/** What is thrown, as it is declared. SI units. */
import { z } from "zod";
import { finite } from "./numbers";

export const PROJECTILE_SHAPES = ["smooth-sphere", "rough-sphere", "pumpkin", "irregular"] as const;

/** Drag coefficients on the frontal area π/4·diameter². Worst cases use `low`. */
export const dragSchema = z
  .strictObject({
    nominal: finite.min(0).max(5),
    low: finite.min(0).max(5),
    high: finite.min(0).max(5),
  })
  .refine((drag) => drag.low <= drag.nominal && drag.nominal <= drag.high, {
    path: ["low"],
    message: "The drag coefficients must rise from low over nominal to high.",
  });

/** Anything lighter floats more than it flies, kg/m³: foam has 10 and more. */
const LEAST_DENSITY = 2;

export const projectileSchema = z
  .strictObject({
    mass: finite.min(0.001).max(5000),
    diameter: finite.min(0.002).max(5),
    /** Sets the default drag and lift; lib/throw/projectile.ts documents the values. */
    shape: z.enum(PROJECTILE_SHAPES).default("smooth-sphere"),
    drag: dragSchema.optional(),
    /** Largest lift coefficient of either sign, in any direction. */
    lift: finite.min(0).max(2).optional(),
  })
  .refine(({ mass, diameter }) => mass >= (LEAST_DENSITY * Math.PI * diameter ** 3) / 6, {
    path: ["diameter"],
    message:
      "So large a projectile of so little mass is lighter than any foam. Check its mass and its diameter.",
  });

export type Projectile = z.output<typeof projectileSchema>;
