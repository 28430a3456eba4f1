/** The range of the day: cold, hot, hold; posts, the tally, the machines' states. */
import { z } from "zod";
import { MACHINE_STATES } from "../../range/state";
import { count, idSchema, instant, reason, text } from "./parts";

/** "live": neither hot nor on hold, but a machine whose zone holds people is not made safe. */
export const RANGE_MODES = ["cold", "live", "hot", "hold"] as const;
export type RangeMode = (typeof RANGE_MODES)[number];

/** A page that holds the range hot, and a post's phone, are heard so often, ms. */
export const BEAT = 2000;

const holdSchema = z.object({
  id: idSchema,
  /** When it was pressed. */
  at: instant,
  /** The badge's label; null: the program. */
  by: z.string().nullable(),
  why: z.string(),
});

/** What every page shows: event "range" of GET …/live carries it. */
export const rangeBriefSchema = z.object({
  mode: z.enum(RANGE_MODES),
  at: instant,
  /** Counts up whenever what posts have said falls. */
  turn: count,
  /** Those that stand, the oldest first. */
  holds: z.array(holdSchema),
  hot: z.object({ id: idSchema, machineId: idSchema, machineName: z.string(), since: instant }).nullable(),
  /** What is played, where a rehearsal is. */
  rehearsal: z
    .object({
      /** What everybody is told of it. */
      words: z.string(),
      /** Something has gone wrong: whoever practises calls hold. */
      cue: z.boolean(),
    })
    .nullable(),
});
export type RangeBrief = z.infer<typeof rangeBriefSchema>;

const timesSchema = z.strictObject({
  /** A lease or a post that was not heard for so long has lapsed, s. */
  silence: z.number().min(6).max(60),
  /** A post's clear counts so long, s. */
  clearLasts: z.number().min(60).max(3600),
  /** Nobody goes near a machine that misfired before this, s. */
  misfireWait: z.number().min(60).max(7200),
});
export type RangeTimes = z.infer<typeof timesSchema>;

const machineStateSchema = z.object({
  id: idSchema,
  name: z.string(),
  entrantId: idSchema,
  entrantNumber: count,
  entrantName: z.string(),
  firingPointNumber: count,
  state: z.enum(MACHINE_STATES),
  /** Sent back with the next change, so that one that comes late is known as late. */
  step: count,
  since: instant.nullable(),
  /** Who may be where, in a sentence. */
  where: z.string(),
  /** Of a misfire: when somebody may go there. */
  approachFrom: instant.nullable(),
  /** Whether that one person is named. */
  approached: z.boolean(),
  /** Who or what with people lies in its zone; null where there is no zone. */
  holds: z.array(z.string()).nullable(),
});
export type RangeMachine = z.infer<typeof machineStateSchema>;

const postStateSchema = z.object({
  id: idSchema,
  name: z.string(),
  state: z.enum(["clear", "left", "not-clear", "lost"]),
  /** When it was said. */
  since: instant.nullable(),
  /** Machines in whose zone the post lies: whoever stands there leaves it when one of them fires. */
  inZoneOf: z.array(z.string()),
});
export type RangePost = z.infer<typeof postStateSchema>;

export const rangeViewSchema = rangeBriefSchema.extend({
  sequence: count,
  posts: z.array(postStateSchema),
  /** How many tags are out. */
  out: count,
  machines: z.array(machineStateSchema),
  times: timesSchema,
  /** Of the machine that was asked about. */
  firing: z
    .object({
      machineId: idSchema,
      machineName: z.string(),
      /** What stands in the way of hot, each a sentence that says what to do. */
      inTheWay: z.array(z.string()),
      /** Of the zone that the list is of. */
      version: z.string(),
      standClear: z.array(z.object({ key: z.string(), name: z.string(), ticked: z.boolean() })),
    })
    .nullable(),
});
export type RangeView = z.infer<typeof rangeViewSchema>;
export const rangeQuery = z.strictObject({
  /** The machine that is to fire. */
  machine: idSchema.optional(),
});

/** Nothing in it may keep a hold from being taken. */
export const holdRequest = z.strictObject({
  /** How long ago it was pressed, ms, where it had to wait for a network. */
  pressedAgo: z.number().min(0).catch(0).default(0),
  /** The server has said that it stands, and not yet that it is stored. */
  standing: z.boolean().catch(false).default(false),
});
export const holdAnswerSchema = z.object({
  id: idSchema,
  /** "late": only written down. */
  done: z.enum(["applied", "already", "late"]),
  /** False while the disk is full: it stands all the same; send it again with the same key until it is. */
  stored: z.boolean(),
});
export type HoldAnswer = z.infer<typeof holdAnswerSchema>;
/** The holds that whoever lifts has seen. */
export const liftRequest = z.strictObject({ holds: z.array(idSchema).max(500) });

const turn = count;
export const hotRequest = z.strictObject({ machineId: idSchema, turn });
export const coldRequest = z.strictObject({ hot: idSchema });
export const beatRequest = z.strictObject({
  /** The lease that this page holds. */
  hot: idSchema.optional(),
  /** The post at which this phone said clear. */
  post: z.strictObject({ id: idSchema, phone: text(8, 64) }).optional(),
});
export const postRequest = z.strictObject({
  clear: z.boolean(),
  turn,
  /** A random word of this phone's own. */
  phone: text(8, 64),
  /** Whoever stands there has left the post. */
  left: z.boolean().default(false),
});
export const tickRequest = z.strictObject({
  machineId: idSchema,
  version: text(1, 64),
  key: text(1, 140),
  done: z.boolean(),
  turn,
});
export const machineStateRequest = z.strictObject({ to: z.enum(MACHINE_STATES), step: count });
export const approachRequest = z.strictObject({ name: text(1, 80), step: count });
export const timesRequest = z.strictObject({ times: timesSchema, reason });

const number = text(1, 20);
export const tagRequest = z
  .strictObject({
    name: text(1, 80).optional(),
    /** What stands on the tag. */
    number: number.optional(),
    /** They are out there already, whatever the range is: then it goes on hold. */
    already: z.boolean().default(false),
  })
  .refine(({ name, number }) => name !== undefined || number !== undefined, {
    path: ["name"],
    message: "Give a name, or the number of a tag.",
  });
/** Of a tally that was kept on paper: they are back. */
export const paperTagRequest = z
  .strictObject({
    name: text(1, 80).optional(),
    number: number.optional(),
    outAt: instant,
    inAt: instant,
    /** A post or a role. */
    witness: text(1, 80),
  })
  .refine(({ name, number }) => name !== undefined || number !== undefined, {
    path: ["name"],
    message: "Give a name, or the number of a tag.",
  })
  .refine(({ outAt, inAt }) => Date.parse(inAt) >= Date.parse(outAt), {
    path: ["inAt"],
    message: "They came back after they went out: look at the sheet again.",
  });
export const tagSchema = z.object({
  id: idSchema,
  /** Null once it is erased. */
  name: z.string().nullable(),
  number: z.string().nullable(),
  /** Of who approaches a misfire. */
  machineName: z.string().nullable(),
  outAt: instant,
  inAt: instant.nullable(),
  /** A post or a role that saw it, where it was written on paper first. */
  witness: z.string().nullable(),
});
export type TagInfo = z.infer<typeof tagSchema>;
export const tallySchema = z.object({
  /** The longest out first. */
  out: z.array(tagSchema),
  /** Back in, newest first. */
  back: z.array(tagSchema),
});
export type Tally = z.infer<typeof tallySchema>;
export const erasedSchema = z.object({ erased: count });
