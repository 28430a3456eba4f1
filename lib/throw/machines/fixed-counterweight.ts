/** A counterweight made fast to the short end: it turns with the arm, its centre at that end. */
import { z } from "zod";
import { armMachineFields, armMachineParameters, pivotedArm } from "./arm";
import { pivotedDrawing } from "./drawing-arm";
import type { MachineKind } from "./kind";

const fixedCounterweightSchema = z.strictObject({
  kind: z.literal("fixed-counterweight"),
  ...armMachineFields,
});

export const fixedCounterweight: MachineKind<typeof fixedCounterweightSchema> = {
  kind: "fixed-counterweight",
  title: "Fixed counterweight",
  summary: "The counterweight is made fast to the arm's short end and turns with it.",
  schema: fixedCounterweightSchema,
  parameters: armMachineParameters,
  drawing: (machine) => pivotedDrawing(machine, null),
  motion: {
    by: "swing",
    carrier: (machine) => {
      const arm = pivotedArm(machine);
      arm.inertia += machine.counterweightInertia;
      return arm;
    },
  },
  notModelled: [],
  example: {
    kind: "fixed-counterweight",
    longArm: 3.2,
    shortArm: 0.9,
    pivotHeight: 2.2,
    cockedAngle: 40,
    armMass: 28,
    counterweightMass: 260,
    counterweightInertia: 6,
    counterweightSize: 0.3,
    slingLength: 2.6,
    troughHeight: 0,
    troughFriction: 0.2,
    releaseAngle: 40,
    base: "fixed",
    leanAlong: 0,
    leanAcross: 0,
  },
  exampleProjectile: { mass: 2.5, diameter: 0.19 },
};
