/** Any machine whose release speed was measured: only the flight is computed. */
import { z } from "zod";
import type { MachineKind } from "./kind";
import { heightOrZero } from "./numbers";

export const measuredSchema = z.strictObject({
  kind: z.literal("measured"),
  releaseSpeed: z.number().positive().max(400),
  launchAngle: z.number().min(-90).max(180),
  launchHeight: heightOrZero,
});

export type Measured = z.output<typeof measuredSchema>;

export const measured: MachineKind<"measured", Measured> = {
  kind: "measured",
  title: "Measured speed",
  summary: "Any machine whose release speed was measured, by video or radar.",
  schema: measuredSchema,
  parameters: [
    {
      name: "releaseSpeed",
      label: "Release speed",
      dimension: "speed",
      required: true,
      help: "The fastest of several measured throws.",
    },
    {
      name: "launchAngle",
      label: "Launch angle",
      dimension: "angle",
      required: true,
      help: "Above the horizontal, as meant; the worst case assumes that it may leave in any direction.",
    },
    {
      name: "launchHeight",
      label: "Release height",
      dimension: "length",
      required: true,
      help: "Of the projectile above the ground when it leaves.",
    },
  ],
  carrier: null,
  notModelled: ["The machine itself: only the flight from the measured speed is computed."],
  example: { kind: "measured", releaseSpeed: 38, launchAngle: 42, launchHeight: 3.5 },
  exampleProjectile: { mass: 3, diameter: 0.2 },
};
