/**
 * What the throw engine is asked and what it answers. SI units; angles in degrees (radians only inside the
 * engine). These zod contracts are the only way in: the HTTP API, the database and the pages all use them.
 */
import { z } from "zod";
import { refusals } from "./check";
import { machineKind, machineSchema } from "./machines/registry";
import type { Throwable } from "./setup";

const finite = z.number();

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

export const projectileSchema = z.strictObject({
  mass: finite.min(0.001).max(5000),
  diameter: finite.min(0.002).max(5),
  /** Sets the default drag and lift; lib/throw/projectile.ts documents the values. */
  shape: z.enum(PROJECTILE_SHAPES).default("smooth-sphere"),
  drag: dragSchema.optional(),
  /** Largest lift coefficient of either sign, in any direction. */
  lift: finite.min(0).max(2).optional(),
});

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

export const GROUND_FIRMNESS = ["soft", "firm", "hard"] as const;

const angle = finite.min(0).max(180);
const metres = finite.min(0).max(10_000);

/** Margins and angles: the safety officer's alone. Every default is common practice, no source. */
export const policySchema = z.strictObject({
  /** Multiplies every first-impact distance. */
  margin: finite.min(1).max(5).default(1.2),
  /** Out-of-plane angle that each cause allows, degrees either way. */
  angles: z
    .strictObject({
      /** How well the machine is aimed. */
      aim: angle.default(5),
      /** Lean of the frame, twist of the arm. */
      lean: angle.default(3),
      /** One leg of the sling torn, or the projectile striking the frame. */
      tornSling: angle.default(20),
    })
    .prefault({}),
  /** Nobody nearer than this to the firing point, whatever the throw, m. */
  minimum: z
    .strictObject({
      forward: metres.default(30),
      backward: metres.default(30),
      side: metres.default(20),
    })
    .prefault({}),
  /** Sets bounce and roll after the first impact. */
  ground: z.enum(GROUND_FIRMNESS).default("firm"),
  /** Whether a projectile that hangs up and whirls on counts. Off only with a reason. */
  hangUp: z.boolean().default(true),
  hangUpReason: z.string().trim().max(500).optional(),
});

const checkedPolicySchema = policySchema.refine((policy) => policy.hangUp || !!policy.hangUpReason, {
  path: ["hangUpReason"],
  message: "Leaving hang-ups out needs a reason, which stands on the sheet.",
});

const declarationFields = {
  machine: machineSchema,
  projectile: projectileSchema,
  /** ± of any numeric parameter by its name, `mass` and `diameter` of the projectile included; 0 is exact. */
  tolerances: z.record(z.string(), finite.min(0)).optional(),
};

type Checked = Throwable & { tolerances?: Record<string, number> | undefined };

/** Refuses what is impossible though every number is in range. */
function checkDeclaration(request: Checked, context: z.RefinementCtx): void {
  for (const refusal of refusals(request)) context.addIssue({ code: "custom", ...refusal });
  const kind = machineKind(request.machine.kind);
  const known = ["mass", "diameter", ...kind.parameters.map((parameter) => parameter.name)];
  for (const name of Object.keys(request.tolerances ?? {})) {
    if (known.includes(name)) continue;
    const message = `A ${kind.kind} machine has no parameter "${name}". It has: ${known.join(", ")}.`;
    context.addIssue({ code: "custom", path: ["tolerances", name], message });
  }
}

/** What a team declares of one machine revision. */
export const declarationSchema = z.strictObject(declarationFields).superRefine(checkDeclaration);

const requestSchema = z.strictObject({
  ...declarationFields,
  air: airSchema.optional(),
  policy: checkedPolicySchema.optional(),
  /** Site of the throw, for gravity; standard gravity without it. */
  site: z.strictObject({ latitude: finite.min(-90).max(90), height: finite.min(-500).max(6000) }).optional(),
  /** How long the swing is followed from the trigger, s; 10·√(longArm/g) by default. */
  horizon: finite.min(0.05).max(120).optional(),
});

export const hazardRequestSchema = requestSchema.superRefine(checkDeclaration);

export type HazardRequestInput = z.input<typeof hazardRequestSchema>;
export type HazardRequest = z.output<typeof hazardRequestSchema>;
export type Declaration = z.output<typeof declarationSchema>;
export type Projectile = z.output<typeof projectileSchema>;
export type Air = z.output<typeof airSchema>;
export type Policy = z.output<typeof policySchema>;
export const defaultPolicy: Policy = policySchema.parse({});

/** One throw of the worst case: where it lands and which instant made it. */
export const worstThrowSchema = z.object({
  /** First impact from the firing point, m, positive in its own direction; 0 when nothing goes that way. */
  distance: z.number(),
  /** s from the trigger; null when nothing goes that way. */
  releaseTime: z.number().nullable(),
  releaseSpeed: z.number().nullable(),
  /** Degrees above the horizontal, downrange 0, uprange 180. */
  launchAngle: z.number().nullable(),
  releaseHeight: z.number().nullable(),
  flightTime: z.number().nullable(),
  /** Whether a slack sling or an end stop stood before this release. */
  afterSlack: z.boolean(),
  stop: z.enum(["none", "holds", "fails"]),
  /** The parameters that differ from the declared ones in the case that made it. */
  corner: z.record(z.string(), z.number()),
});

export const nominalSchema = z.object({
  /** First impact downrange of the firing point, m; negative when the machine throws backwards. */
  distance: z.number(),
  /** To the right of the bearing, m: the crosswind. */
  drift: z.number(),
  releaseTime: z.number(),
  releaseSpeed: z.number(),
  launchAngle: z.number(),
  releaseHeight: z.number(),
  flightTime: z.number(),
  apex: z.number(),
  impactSpeed: z.number(),
  impactAngle: z.number(),
  impactEnergy: z.number(),
});

export const hazardSheetSchema = z.object({
  kind: z.string(),
  codeVersion: z.string(),
  /** The throw as meant; null when the loop never slips, and `nominalReason` says why. */
  nominal: nominalSchema.nullable(),
  nominalReason: z.string().nullable(),
  worst: z.object({
    forward: worstThrowSchema,
    backward: worstThrowSchema,
    /** Up to the instant the sling's angle has fallen to −90°: without hang-ups. */
    firstPass: z.object({ forward: worstThrowSchema, backward: worstThrowSchema }),
    /** Parameters of which half a percent moves `worst` by more than 3 %. */
    sensitive: z.array(z.object({ parameter: z.string(), change: z.number() })),
  }),
  /** What energy forbids `worst` to exceed; m/s and m. */
  ceiling: z.object({ speed: z.number(), distance: z.number() }),
  /** m from the firing point; `reach[i]` at i degrees clockwise from the bearing, 360 numbers. */
  exclusion: z.object({
    forward: z.number(),
    backward: z.number(),
    side: z.number(),
    reach: z.array(z.number()).length(360),
  }),
  /** Highest the projectile can go above the ground, m. */
  apex: z.number(),
  /** Largest energy at first impact against the injury threshold, J. */
  impact: z.object({ energy: z.number(), threshold: z.number(), exceeds: z.boolean() }),
  search: z.object({
    instants: z.number(),
    flights: z.number(),
    horizon: z.number(),
    /** Relative error of `worst` that the search admits. */
    allowance: z.number(),
    /** Whether each branch was met on the declared machine. */
    slack: z.boolean(),
    endStop: z.boolean(),
  }),
  assumptions: z.array(z.string()),
  warnings: z.array(z.object({ code: z.string(), text: z.string() })),
  notModelled: z.array(z.string()),
  /** Places of what the engine does not compute yet; absent until it does. */
  faults: z.array(z.unknown()).optional(),
  loads: z.unknown().optional(),
  sweep: z.unknown().optional(),
  dispersion: z.unknown().optional(),
  calibration: z.unknown().optional(),
});

export type WorstThrow = z.infer<typeof worstThrowSchema>;
export type Nominal = z.infer<typeof nominalSchema>;
export type HazardSheet = z.infer<typeof hazardSheetSchema>;
