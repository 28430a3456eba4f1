/** The numbers that the contracts are made of: zod refuses what is not finite. */
import { z } from "zod";

export const finite = z.number();
/** Degrees. */
export const angle = finite.min(0).max(180);
export const metres = finite.min(0).max(10_000);
