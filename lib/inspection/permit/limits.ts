/** The limits of a firing permit. SI units, degrees. */
import { z } from "zod";

const amount = z.number().positive();

export const permitLimitsSchema = z.strictObject({
  /** The strongest wind in which it may fire, m/s at a height in m: mean and gust. */
  wind: z.strictObject({
    speed: z.number().min(0).max(60),
    gust: z.number().min(0).max(80),
    height: z.number().min(0.5).max(100),
  }),
  /** How far from the permit's bearing it may be aimed, degrees either way. */
  bearing: z.number().min(0).max(45),
  /** Of a projectile, kg: a lighter one flies farther. */
  projectileMass: z
    .strictObject({ least: amount, most: amount })
    .refine(({ least, most }) => least <= most, "The least mass is above the largest one."),
  /** The largest, kg; null for a machine without one. */
  counterweightMass: amount.nullable(),
  /** The largest of the chamber above the air around it, Pa; null for a machine without one. */
  pressure: amount.nullable(),
});
export type PermitLimits = z.infer<typeof permitLimitsSchema>;
