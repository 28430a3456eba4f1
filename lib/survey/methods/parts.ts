/** Fields that several methods ask for: the contract and the form's words of each, side by side. */
import { z } from "zod";
import { FIRING_POINT } from "../site";
import type { Field } from "./method";

/** The farthest landing that is taken for a measurement and not for a slip of the finger, m. */
const FARTHEST = 10_000;

export const number = (missing: string) => z.number({ error: missing });

/** Where the projectile first struck, or where it came to rest. */
export const LANDINGS = ["first-impact", "rest"] as const;

/** What every measured landing begins with. */
export const landed = {
  outcome: z.literal("landed"),
  /** Which of the two was measured; the one that the contest's rule asks for if left out. */
  landing: z.enum(LANDINGS).optional(),
};

export const pegId = z.string().min(1, "Choose the peg.").max(100, "Choose the peg from the list.");

export const bearing = number("Enter the bearing in degrees.")
  .min(0, "The bearing lies between 0 and 360 degrees.")
  .max(360, "The bearing lies between 0 and 360 degrees.");

/** Which north a bearing is counted from, and the turn between them. */
export const north = {
  north: z.enum(["true", "magnetic"]).default("true"),
  /** Degrees, east positive, added to a magnetic bearing. */
  declination: number("Enter the declination in degrees.")
    .min(-180, "The declination lies between −180 and 180 degrees.")
    .max(180, "The declination lies between −180 and 180 degrees.")
    .optional(),
};

export const distance = (missing: string) =>
  number(missing)
    .min(0, "The distance cannot be negative: a throw backwards has its own bearing.")
    .max(FARTHEST, "The distance is more than 10 km: check the number and its unit.");

export const tapeDistance = number("Enter the taped distance.")
  .positive("The tape reads more than zero.")
  .max(FARTHEST, "The distance is more than 10 km: check the number and its unit.");

export const metreUncertainty = number("Enter the uncertainty in metres.")
  .positive("The uncertainty is above zero.")
  .max(1000, "The uncertainty is at most 1 km.")
  .optional();

export const degreeUncertainty = number("Enter the uncertainty in degrees.")
  .positive("The uncertainty is above zero.")
  .max(90, "The uncertainty is at most 90 degrees.")
  .optional();

export const elevation = number("Enter the elevation in degrees, downwards negative.")
  .gt(-90, "An elevation lies between −90 and 90 degrees.")
  .lt(90, "An elevation lies between −90 and 90 degrees.");

export const zenith = number("Enter the zenith angle in degrees.")
  .gt(0, "A zenith angle lies between 0 and 180 degrees.")
  .lt(180, "A zenith angle lies between 0 and 180 degrees.");

export const rise = number("Enter the rise of the ground in metres, a fall negative.")
  .min(-1000, "The rise is at most 1 km.")
  .max(1000, "The rise is at most 1 km.");

export const stand = number("Enter the height in metres.")
  .min(0, "The height above the ground is not negative.")
  .max(100, "The height above the ground is at most 100 m.")
  .optional();

export const place = {
  latitude: number("Enter the latitude in degrees, south negative.")
    .min(-90, "The latitude lies between −90 and 90 degrees.")
    .max(90, "The latitude lies between −90 and 90 degrees."),
  longitude: number("Enter the longitude in degrees, west negative.")
    .min(-180, "The longitude lies between −180 and 180 degrees.")
    .max(180, "The longitude lies between −180 and 180 degrees."),
};

/** Radius in metres that a receiver reports around the point. */
export const accuracy = number("Enter the accuracy in metres.")
  .positive("The accuracy is above zero.")
  .max(1000, "The receiver is more than 1 km out: wait for a better position, or measure by tape.")
  .optional();

/**
 * How surely the point lies within `accuracy`, percent: 95 as web browsers report it (W3C Geolocation), 68 as many
 * hand-held receivers and Android itself do.
 */
export const accuracyLevel = z.union([z.literal(95), z.literal(68)]).default(95);

/** The form's words for them. */
export const ask = {
  number: (
    name: string,
    label: string,
    dimension: Extract<Field, { type: "number" }>["dimension"],
    help: string,
    more: { required?: boolean; when?: { choice: string; is: string } } = {},
  ): Field => ({ type: "number", name, label, dimension, help, required: true, ...more }),
  choice: (
    name: string,
    label: string,
    help: string,
    options: Record<string, string>,
    required = false,
  ): Field => ({
    type: "choice",
    name,
    label,
    help,
    required,
    options: Object.entries(options).map(([value, text]) => ({ value, label: text })),
  }),
  peg: (name: string, label: string, help: string, required = true): Field => ({
    type: "peg",
    name,
    label,
    help,
    required,
  }),
};

export const optional = { required: false } as const;

export const LANDING_FIELD: Field = ask.choice(
  "landing",
  "What was measured",
  "What the contest's rule asks for if left empty.",
  { "first-impact": "First impact", rest: "Where it came to rest" },
);

export const FROM_FIELD = ask.peg(
  "from",
  "Measured from",
  `The peg under the instrument; the firing point ("${FIRING_POINT}") if left empty.`,
  false,
);

export const BEARING_FIELDS: readonly Field[] = [
  ask.number("bearing", "Bearing", "angle", "To the landing point, clockwise from north."),
  ask.choice("north", "Counted from", "True north if left empty.", {
    true: "True north",
    magnetic: "Magnetic north",
  }),
  ask.number(
    "declination",
    "Declination",
    "angle",
    "Added to a magnetic bearing, east positive; the site's if left empty.",
    { required: false, when: { choice: "north", is: "magnetic" } },
  ),
];

/** How high instrument and target stood: `stand` each. */
export const STAND_FIELDS: readonly Field[] = [
  ask.number(
    "instrumentHeight",
    "Instrument height",
    "distance",
    "Above the peg; 0 if left empty.",
    optional,
  ),
  ask.number(
    "targetHeight",
    "Target height",
    "distance",
    "Above the landing point; 0 if left empty.",
    optional,
  ),
];
