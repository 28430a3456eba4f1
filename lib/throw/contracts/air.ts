/** The day's air and wind, and the ground it blows over. */
import { z } from "zod";
import { finite } from "./numbers";

export const windSchema = z
  .strictObject({
    /** Mean speed at the anemometer, m/s. */
    speed: finite.min(0).max(60).default(0),
    /** Top speed in the gusts, not an addition; the mean speed if absent. */
    gust: finite.min(0).max(80).optional(),
    /** Where the wind blows to, degrees clockwise from the bearing: 0 a tail wind, 180 a head wind. */
    direction: finite.min(-360).max(360).default(0),
    /** Height of the anemometer, m. */
    height: finite.min(0.5).max(100).default(10),
  })
  .refine((wind) => wind.gust === undefined || wind.gust >= wind.speed, {
    path: ["gust"],
    message: "The gust is the top speed, not an addition: it cannot be below the mean speed.",
  });

export const airSchema = z.strictObject({
  /** Kelvin. No field on Earth has −90 to 60 K, so such a value is read as degrees Celsius. */
  temperature: finite
    .min(-90)
    .max(340)
    .refine((value) => value <= 60 || value >= 180, {
      message: "Give the temperature in kelvin (288.15) or in degrees Celsius (15).",
    })
    .optional(),
  /** Station pressure, Pa (not reduced to sea level); 0 means no air at all. */
  pressure: finite
    .min(0)
    .max(120_000)
    .refine((value) => value === 0 || value >= 30_000, {
      message: "Give the station pressure in pascals: 1013 hPa is 101300.",
    })
    .optional(),
  /** Height above sea level, m; serves for the pressure only when that is absent. */
  altitude: finite.min(-500).max(6000).optional(),
  wind: windSchema.optional(),
});

/**
 * The ground on which throws land: a plane that passes `below` metres under the firing point. The machine stands on
 * level ground at height 0, where its own strikes count.
 */
export const terrainSchema = z.strictObject({
  /** How far the landing ground lies below the machine's, m. */
  below: finite.min(0).max(500).default(0),
  /** Degrees by which it falls along the bearing: positive falls away downrange (and rises uprange). */
  slope: finite.min(-30).max(45).default(0),
  /** Degrees by which it falls to the right of the bearing; zones take the falling side for both. */
  crossSlope: finite.min(-30).max(30).default(0),
});

export type Terrain = z.output<typeof terrainSchema>;
export type Air = z.output<typeof airSchema>;
