/** The firing order of the day: what it is planned by, and every turn with its time. Times that something takes are in s. */
import { z } from "zod";
import { count, idSchema, instant, reason } from "./parts";

const seconds = (most: number) => z.number().min(0).max(most);
const HOUR = 3600;

export const orderRulesSchema = z.strictObject({
  /** The first turn does not begin before this. */
  startAt: instant,
  /** Posts say clear, the tally is read. */
  call: seconds(HOUR).default(60),
  /** Added where somebody has to leave a zone first. */
  clearing: seconds(HOUR).default(120),
  /** After each throw, while people walk to the landing point. */
  measure: seconds(HOUR).default(240),
  /** What a crew loses by leaving its machine and coming back. */
  stepBack: seconds(HOUR).default(60),
  /** Of a machine that says nothing else: from a throw until it may be raised again. */
  rearm: seconds(6 * HOUR).default(900),
  /** Likewise: from the first raising until it is made safe again. */
  live: seconds(2 * HOUR).default(240),
  /** A machine that is ready again throws within this; null takes one and a half rounds. */
  longestWait: seconds(12 * HOUR)
    .nullable()
    .default(null),
  /** Nobody opens or closes more rounds than its share, and nobody's mean place is in the outer quarters. */
  rotate: z.boolean().default(true),
  /** Nobody throws and nobody re-arms. */
  pauses: z
    .array(z.strictObject({ from: instant, to: instant }))
    .max(20)
    .default([]),
});
export type OrderRules = z.infer<typeof orderRulesSchema>;

export const orderRequest = z.strictObject({
  /** As they were if left out; the first order needs them. */
  rules: orderRulesSchema.optional(),
  /** Who throws, one machine a team; all that are declared and placed if left out. */
  machineIds: z.array(idSchema).min(1).max(200).optional(),
  /** So many turns that are called already stay first. */
  firm: z.number().int().min(0).max(10).default(2),
  /** Why it is planned anew; the first order needs none. */
  reason: reason.optional(),
});
export type OrderRequest = z.infer<typeof orderRequest>;

export const turnMove = z.strictObject({
  /** The turn after which this one comes, or null: it is passed over and comes last in its round's order. */
  after: idSchema.nullable(),
  reason,
});

export const machineTimesRequest = z.strictObject({
  /** From a throw until it may be raised again; null takes the usual time. */
  rearm: seconds(6 * HOUR).nullable(),
  /** From the first raising until it is made safe again. */
  live: seconds(2 * HOUR).nullable(),
  /** It is late: no turn before this. */
  notBefore: instant.nullable(),
});
export const machineTimesSchema = machineTimesRequest.extend({ machineId: idSchema });
export type MachineTimes = z.infer<typeof machineTimesSchema>;

export const TURN_STATES = ["thrown", "to-throw", "out"] as const;
export const turnSchema = z.object({
  shotId: idSchema,
  /** For which round it counts. */
  round: count,
  /** In which round's order it comes. */
  stage: count,
  /** There, from 1. */
  place: count,
  entrantId: z.string(),
  entrantNumber: count,
  entrantName: z.string(),
  machineId: z.string(),
  machineName: z.string(),
  firingPointNumber: count,
  bearing: z.number(),
  /** "out": by a ruling its team does not compete, so nobody waits for it. */
  state: z.enum(TURN_STATES),
  /** Of what was thrown: when its entry was seen. */
  thrownAt: instant.nullable(),
  /** When it was to begin, as people were told last. */
  toldAt: instant.nullable(),
  /** When it will begin by the pace of the day, and when the machine will be down again; null without an order. */
  expectedAt: instant.nullable(),
  doneAt: instant.nullable(),
  /** Machines whose crews have to stop re-arming for it. */
  stops: z.array(z.string()),
  /** Why it does not come where it was planned. */
  passedOver: z.string().nullable(),
  /** Whether a firing permit of its machine stands; null where nobody looked: not among the next, or none is signed yet. */
  permitted: z.boolean().nullable(),
});
export type TurnInfo = z.infer<typeof turnSchema>;

/** What an order comes to. */
export const orderFiguresSchema = z.object({
  /** When the last machine is down again. */
  end: instant,
  /** The longest that a machine which is ready again waits for its turn. */
  longestWait: z.number(),
  /** Seconds of waiting beyond what is fair, of all turns together. */
  unfair: z.number(),
  /** Rounds opened or closed beyond a machine's share, and mean places at an end of the order; 0: the order rotates. */
  unrotated: z.number(),
  /** By how many places turns moved against what was told, all together. */
  moved: count,
});
export type OrderFigures = z.infer<typeof orderFiguresSchema>;

export const firingOrderSchema = z.object({
  /** When this was reckoned: times to come are seen from here. */
  at: instant,
  /** Null while no order is planned for the day: then turns have no times. */
  rules: orderRulesSchema.nullable(),
  plannedAt: instant.nullable(),
  /** In the order of the day. */
  turns: z.array(turnSchema),
  /** The next; null when nothing is left to throw. */
  upId: z.string().nullable(),
  /** How the last throws went against the planned times, 1.2: a fifth slower; null while too few tell. */
  pace: z.number().nullable(),
  /** Since it was planned something changed that it rests on; one sentence each. */
  stale: z.array(z.string()),
  /** Rounds without a place in the order, for machines that are ready. */
  missing: z.array(z.object({ machineId: z.string(), machineName: z.string(), rounds: z.array(count) })),
});
export type FiringOrder = z.infer<typeof firingOrderSchema>;

/** What planning anew would do. Nothing is kept. */
export const orderProposalSchema = z.object({
  turns: z.array(turnSchema),
  proposed: orderFiguresSchema,
  /** The order as it is, with what is new at the end; null before the first. */
  unchanged: orderFiguresSchema.nullable(),
  /** A plain rota of the same turns. */
  rota: orderFiguresSchema,
  /** No order of these turns ends before this, whatever rule it breaks. */
  bound: instant,
  /** The longest wait that counts as fair. */
  fairWait: z.number(),
  /** What was taken for granted, one sentence each. */
  assumed: z.array(z.string()),
});
export type OrderProposal = z.infer<typeof orderProposalSchema>;
