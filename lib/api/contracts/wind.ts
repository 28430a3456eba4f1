/** The wind of the day: readings, and what they do to the distances. */
import { z } from "zod";
import { SHEET_STATES } from "./machines";
import { bearingSchema, idSchema, instant, text } from "./parts";

/** How long a reading counts without another word, minutes: common practice, no source. */
export const READING_LASTS = 30;
/** Longer than this no reading counts, hours. */
export const READING_LASTS_AT_MOST = 6;

export const windReadingRequest = z
  .strictObject({
    /** Mean speed, m/s. */
    speed: z.number().min(0).max(60),
    /** Top speed in the gusts, m/s. */
    gust: z.number().min(0).max(80),
    /** Where it blows from, degrees. */
    direction: bearingSchema,
    /** Whether the direction was read from a compass: the contest's declination is added. */
    magnetic: z.boolean().default(false),
    /** Of the anemometer above the ground, m; 2 held up by hand. */
    height: z.number().min(0.5).max(100).default(2),
    /** A post or a role, no person's name. */
    observer: text(1, 60),
    /** Now if left out; may be earlier. */
    observedAt: instant.optional(),
    /** Half an hour after it was observed if left out. */
    expiresAt: instant.optional(),
  })
  .refine(({ speed, gust }) => gust >= speed, {
    path: ["gust"],
    message: "The gust is the top speed, not an addition: it cannot be below the mean speed.",
  });

export const windReadingSchema = z.object({
  id: idSchema,
  speed: z.number(),
  gust: z.number(),
  /** Degrees true, where it blows from. */
  direction: z.number(),
  height: z.number(),
  observer: z.string(),
  observedAt: instant,
  expiresAt: instant,
  /** Label of the badge that entered it. */
  by: z.string(),
  /** Of its entry, which may be later than the reading. */
  createdAt: instant,
});
export type WindReadingInfo = z.infer<typeof windReadingSchema>;

/** m/s at a height in m. */
const windLimitSchema = z.object({ speed: z.number(), gust: z.number(), height: z.number() });
export type WindLimit = z.infer<typeof windLimitSchema>;

const distancesSchema = z.object({ forward: z.number(), backward: z.number(), side: z.number() });

/** "not-measured": no reading is in force. */
export const WIND_STATES = ["not-measured", "within", "beyond"] as const;

export const windOfDaySchema = z.object({
  state: z.enum(WIND_STATES),
  at: instant,
  /** The strongest wind in which machines may fire; still air when the safety officer has set none. */
  limit: windLimitSchema,
  /** The newest reading of each post that has not expired, the strongest first. */
  inForce: z.array(windReadingSchema),
  /** The strongest of them at the limit's height, to compare with the limit. */
  atLimitHeight: windLimitSchema.nullable(),
  /** When the next reading in force expires. */
  nextExpiry: instant.nullable(),
  /** The newest that has expired, when none is in force. */
  expired: windReadingSchema.nullable(),
  /** Beyond the limit only: every placed machine whose distances no longer hold, or are not known yet. */
  machines: z.array(
    z.object({
      machineId: z.string(),
      machineName: z.string(),
      entrantName: z.string(),
      firingPointNumber: z.number(),
      state: z.enum(SHEET_STATES),
      /** How far its zone reaches at the limit, m from the firing point, whose accuracy is counted in. */
      atLimit: distancesSchema.nullable(),
      /** The same in the wind that was measured. */
      now: distancesSchema.nullable(),
    }),
  ),
});
export type WindOfDay = z.infer<typeof windOfDaySchema>;

export const windHistorySchema = z.object({
  now: windOfDaySchema,
  /** Newest observation first. */
  readings: z.array(windReadingSchema),
});
export type WindHistory = z.infer<typeof windHistorySchema>;
