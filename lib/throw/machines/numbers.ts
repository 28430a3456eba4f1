/** The zod numbers that machine parameters are made of. SI; angles in degrees. */
import { z } from "zod";

/** A millimetre, a gram: nothing smaller is part of a machine, and its motion could not be followed. */
const size = (largest: number) => z.number().min(0.001).max(largest);

export const length = size(100);
export const heightOrZero = z.number().min(0).max(100);
export const mass = size(1_000_000);
export const massOrZero = z.number().min(0).max(1_000_000);
export const inertiaOrZero = z.number().min(0).max(1e9);
export const friction = z.number().min(0).max(3);

/** `"fixed"`, or a frame on wheels: its mass without what moves on it, and the distance between its axles. */
export const base = z
  .union([z.literal("fixed"), z.strictObject({ frameMass: mass, footprint: length })])
  .default("fixed");
