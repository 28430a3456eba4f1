/** What a stop is designed from. SI units. */
import { z } from "zod";
import { finite } from "../contracts/numbers";
import { BOLT_CLASSES, BOLT_SIZES } from "./bolts";

export const STOP_KINDS = ["crush", "timber", "rubber", "rope-loop", "spring", "curve"] as const;

/** What bounds the stop; the others follow. */
export const STOP_LIMITS = ["stroke", "force", "deceleration"] as const;

export const stopInputSchema = z
  .strictObject({
    /** Arriving at the stop, J. */
    energy: finite.positive().max(1e9),
    /** What arrives, as it feels at the stop, kg; without it speed and deceleration are not told. */
    movingMass: finite.positive().max(1e6).optional(),
    /** What weight or springs go on pushing with while the stop brakes, N. */
    drive: finite.min(0).max(1e8).default(0),
    kind: z.enum(STOP_KINDS).default("crush"),
    /** Mean force over peak force of the chosen kind; what is usual for it if absent. */
    efficiency: finite.min(0.1).max(1).optional(),
    /** Force against way as measured, for the kind "curve": rising ways, m and N. */
    curve: z
      .array(z.strictObject({ stroke: finite.min(0).max(20), force: finite.min(0).max(1e9) }))
      .min(2)
      .max(30)
      .optional(),
    limit: z.discriminatedUnion("by", [
      z.strictObject({ by: z.literal("stroke"), stroke: finite.positive().max(20) }),
      z.strictObject({ by: z.literal("force"), force: finite.positive().max(1e9) }),
      /** As multiples of gravity. */
      z.strictObject({ by: z.literal("deceleration"), deceleration: finite.positive().max(1000) }),
    ]),
    bolt: z
      .strictObject({
        size: z.enum(BOLT_SIZES).default("M12"),
        class: z.enum(BOLT_CLASSES).default("8.8"),
        /** Of the bolt's steel as its maker states it, Pa; by its class if absent. */
        shearStrength: finite.positive().max(3e9).optional(),
        /** 1 where the bolt is cut once, 2 where it is held on both sides of what pulls. */
        planes: finite.int().min(1).max(2).default(1),
        designFactor: finite.min(1).max(20).default(3),
      })
      .prefault({}),
    frame: z
      .strictObject({
        mass: finite.positive().max(1e6),
        footprint: finite.positive().max(100),
        friction: finite.min(0).max(3).default(0.3),
        /** Of the stop above the ground, m. */
        height: finite.min(0).max(100),
      })
      .optional(),
    drop: z
      .strictObject({
        /** What is dropped, kg. */
        mass: finite.positive().max(1e5),
      })
      .optional(),
    gravity: finite.positive().max(20).default(9.80665),
  })
  .refine(({ kind, curve }) => kind !== "curve" || curve !== undefined, {
    path: ["curve"],
    message: "Give the measured force at two ways or more, or choose another kind of stop.",
  })
  .refine(({ curve }) => !curve || curve.every((point, i) => i === 0 || point.stroke > curve[i - 1].stroke), {
    path: ["curve"],
    message: "Give the points in the order of their way, each farther than the one before.",
  })
  .refine(({ limit, movingMass }) => limit.by !== "deceleration" || movingMass !== undefined, {
    path: ["movingMass"],
    message: "Give what moves, in kg: without it no deceleration is known.",
  });

export type StopInput = z.output<typeof stopInputSchema>;
export type StopKind = (typeof STOP_KINDS)[number];
export type StopLimit = (typeof STOP_LIMITS)[number];
