/** A counterweight that hangs from the short end of the arm on a hinge; a sling on the long end. */
import { z } from "zod";
import { armMachineFields, armMachineParameters, pivotedArm } from "./arm";
import { pivotedDrawing } from "./drawing-arm";
import type { MachineKind } from "./kind";
import { length } from "./numbers";

const hingedCounterweightSchema = z.strictObject({
  kind: z.literal("hinged-counterweight"),
  ...armMachineFields,
  hangerLength: length,
});

export const hingedCounterweight: MachineKind<typeof hingedCounterweightSchema> = {
  kind: "hinged-counterweight",
  title: "Hinged counterweight",
  summary: "The counterweight hangs from the arm's short end and swings freely on its hinge.",
  schema: hingedCounterweightSchema,
  parameters: [
    ...armMachineParameters,
    {
      name: "hangerLength",
      label: "Hanger length",
      dimension: "length",
      required: true,
      help: "From the hinge to the centre of the counterweight.",
      tolerance: { share: 0.02 },
    },
  ],
  drawing: (machine) => pivotedDrawing(machine, machine.hangerLength),
  motion: {
    by: "swing",
    carrier: (machine) => {
      const arm = pivotedArm(machine);
      const { counterweightMass, hangerLength, shortArm } = machine;
      arm.hanger = {
        length: hangerLength,
        coupling: counterweightMass * shortArm * hangerLength,
        inertia: counterweightMass * hangerLength ** 2 + machine.counterweightInertia,
        moment: counterweightMass * hangerLength,
      };
      return arm;
    },
  },
  notModelled: [],
  example: {
    kind: "hinged-counterweight",
    longArm: 4.2,
    shortArm: 1.05,
    pivotHeight: 2.9,
    cockedAngle: 40,
    armMass: 42,
    counterweightMass: 420,
    counterweightInertia: 0,
    counterweightSize: 0,
    hangerLength: 0.8,
    slingLength: 3.6,
    troughHeight: 0,
    troughFriction: 0.2,
    releaseAngle: 38,
    base: "fixed",
    leanAlong: 0,
    leanAcross: 0,
  },
  exampleProjectile: { mass: 4, diameter: 0.22 },
};
