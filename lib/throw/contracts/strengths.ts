/**
 * What the team declares that the machine's parts can bear, for the reserves of the hazard sheet. SI units. All of
 * it is optional: nothing declared means no reserve, never an invented strength.
 */
import { z } from "zod";
import { finite } from "./numbers";

const strength = finite.positive().max(1e9);
const size = finite.positive().max(5);

export const WOOD_SPECIES = [
  "white-oak",
  "white-ash",
  "shagbark-hickory",
  "douglas-fir",
  "longleaf-pine",
] as const;

/** How good the timber is; without a grade stamp take the lowest that it could be. */
export const WOOD_GRADES = ["clear", "select-structural", "no-1", "no-2", "no-3"] as const;

/** What the projectile hangs on. */
export const slingStrengthSchema = z.union([
  z.strictObject({
    /** Breaking strength of one rope as its maker quotes it, dry and without knots, N. */
    ropeRating: strength,
    /** Whether it is knotted anywhere (a knot, not a splice): halves it. */
    knots: z.boolean().default(true),
    /** Whether it may be wet when it throws. */
    wet: z.boolean().default(true),
    /** Ropes that share the pull: 2 when both legs of the sling hold the pouch. */
    legs: finite.int().min(1).max(8).default(1),
    /** Share of its length by which the rope stretches before it breaks, for the jerk after a slack. */
    stretch: finite.min(0.005).max(1).optional(),
  }),
  z.strictObject({
    /** Of the made-up sling with its knots, as tested, N: nothing is taken off. */
    breakingStrength: strength,
    /** Share of its length by which the sling stretches before it breaks. */
    stretch: finite.min(0.005).max(1).optional(),
  }),
]);

/** A section of the arm; `depth` lies in the plane of the swing, `width` across it. All m. */
export const armSectionSchema = z
  .discriminatedUnion("shape", [
    z.strictObject({ shape: z.literal("rectangular"), depth: size, width: size }),
    z.strictObject({ shape: z.literal("round"), diameter: size }),
    z.strictObject({
      shape: z.literal("tube"),
      /** Outer diameter, m. */
      diameter: size,
      /** Thickness of the wall, m. */
      wall: size,
    }),
    z.strictObject({
      shape: z.literal("laminated"),
      /** Of all the wood together, m; cloth is counted apart. */
      depth: size,
      width: size,
      /** Boards on top of each other through the depth. */
      layers: finite.int().min(1).max(100),
      /** 1 when the glue makes one piece of the layers, 0 when they only lie on each other. */
      glueFactor: finite.min(0).max(1).default(0.5),
      /** Layers of cloth in resin, each adding about 0.8 mm to the depth (common practice, no source). */
      clothLayers: finite.int().min(0).max(50).default(0),
    }),
  ])
  .refine((section) => section.shape !== "tube" || 2 * section.wall <= section.diameter, {
    path: ["wall"],
    message: "The wall is thicker than half the tube's diameter. Give the thickness of one side.",
  });

export const armMaterialSchema = z.union([
  z.strictObject({
    wood: z.enum(WOOD_SPECIES),
    grade: z.enum(WOOD_GRADES).default("no-2"),
    /** Water as a share of the dry wood's mass, percent: 12 indoors, 19 the most of timber sold as dry. */
    moisture: finite.min(6).max(60).default(19),
  }),
  z.strictObject({
    /** Bending stress at which this very material, as built, fails or yields, Pa: nothing is taken off. */
    modulusOfRupture: finite.positive().max(5e9),
  }),
]);

export const armStrengthSchema = z
  .strictObject({
    material: armMaterialSchema.optional(),
    sections: z
      .strictObject({
        /** At the pivot, and all of the short arm. */
        pivot: armSectionSchema,
        /** At the tip, of the same shape: between them every size changes evenly. As at the pivot if absent. */
        tip: armSectionSchema.optional(),
      })
      .optional(),
    /** Where the arm's mass sits, as lumps; a uniform rod if absent. Scaled to the arm's whole mass. */
    masses: z
      .array(
        z.strictObject({
          /** From the short end, m. */
          at: finite.min(0).max(200),
          /** kg */
          mass: finite.positive().max(1e6),
        }),
      )
      .min(1)
      .max(200)
      .optional(),
  })
  .refine(({ sections }) => !sections?.tip || sections.tip.shape === sections.pivot.shape, {
    path: ["sections", "tip", "shape"],
    message: "Give the tip a section of the same shape as at the pivot, so that sizes between can be taken.",
  });

export const strengthsSchema = z.strictObject({
  sling: slingStrengthSchema.optional(),
  arm: armStrengthSchema.optional(),
  /** Load at which pivot or axle with its bearings fails, N. */
  pivot: strength.optional(),
  /** Pull at which the hanger, the drum or its cradle fails, N. */
  hanger: strength.optional(),
  /** What stops the carriage or the arm. */
  stop: z
    .strictObject({
      /** Way over which it brakes, m. */
      stroke: finite.positive().max(20).optional(),
      /** Largest force that it and what holds it can take, N. */
      force: strength.optional(),
    })
    .optional(),
  /** Pressure above the air's to which the chamber is rated, Pa. */
  chamberRating: finite.positive().max(1e9).optional(),
  /** For tipping and sliding, where the machine's base does not say it. */
  frame: z
    .strictObject({
      /** Of all that stands still, kg. */
      mass: finite.positive().max(1e6),
      /** Length of the base along the bearing, the pivot above its middle, m. */
      footprint: finite.positive().max(100),
      /** Friction coefficient between base and ground. */
      friction: finite.min(0).max(3).optional(),
    })
    .optional(),
});

export type Strengths = z.output<typeof strengthsSchema>;
export type SlingStrength = z.output<typeof slingStrengthSchema>;
export type ArmSection = z.output<typeof armSectionSchema>;
export type ArmMaterial = z.output<typeof armMaterialSchema>;
