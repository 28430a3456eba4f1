/**
 * An arm without a fixed pivot: the counterweight's joint falls down a vertical line while the fulcrum runs on
 * a horizontal track. World origin at the foot of the drop track.
 */
import { z } from "zod";
import {
  armBody,
  armParameters,
  cockedAngle,
  cockedParameter,
  leanParameters,
  releaseAngle,
  slingParameters,
  standFields,
  startAngleOf,
} from "./arm";
import { floatingDrawing } from "./drawing-arm";
import type { MachineKind } from "./kind";
import { friction, heightOrZero, inertiaOrZero, length, mass, massOrZero } from "./numbers";

const floatingArmSchema = z.strictObject({
  kind: z.literal("floating-arm"),
  longArm: length,
  shortArm: length,
  trackHeight: length,
  cockedAngle,
  armMass: massOrZero,
  armCentre: z.number().min(0).max(200).optional(),
  armInertia: inertiaOrZero.optional(),
  counterweightMass: mass,
  counterweightSize: heightOrZero.default(0),
  carriageMass: massOrZero,
  slingLength: length,
  troughHeight: heightOrZero.default(0),
  troughFriction: friction.default(0),
  releaseAngle,
  /** How far downrange of the drop track the carriage is stopped. Absent: no stop. */
  endStop: z.number().min(-100).max(100).optional(),
  ...standFields,
});

export const floatingArm: MachineKind<typeof floatingArmSchema> = {
  kind: "floating-arm",
  title: "Floating arm",
  summary: "The counterweight drops down a vertical track while the arm's fulcrum rolls along a level one.",
  schema: floatingArmSchema,
  parameters: [
    {
      name: "longArm",
      label: "Long arm",
      dimension: "length",
      required: true,
      help: "From the fulcrum to the tip.",
      tolerance: { share: 0.01 },
    },
    {
      name: "shortArm",
      label: "Short arm",
      dimension: "length",
      required: true,
      help: "From the counterweight's joint to the fulcrum.",
      tolerance: { share: 0.01 },
    },
    {
      name: "trackHeight",
      label: "Track height",
      dimension: "length",
      required: true,
      help: "Of the fulcrum above the ground.",
      tolerance: { share: 0.01 },
    },
    cockedParameter,
    ...armParameters,
    {
      name: "counterweightMass",
      label: "Counterweight",
      dimension: "mass",
      required: true,
      help: "With its cradle; its centre at the joint.",
      tolerance: { share: 0.03 },
    },
    {
      name: "counterweightSize",
      label: "Counterweight's radius",
      dimension: "length",
      required: false,
      help: "For its gap to the ground; 0 if left empty.",
      tolerance: {},
    },
    {
      name: "carriageMass",
      label: "Carriage mass",
      dimension: "mass",
      required: true,
      help: "What rides along with the fulcrum: wheels and axle.",
      tolerance: { share: 0.05 },
    },
    ...slingParameters,
    {
      name: "endStop",
      label: "End stop",
      dimension: "length",
      required: false,
      help: "How far downrange of the drop track the carriage is stopped; no stop if left empty.",
      tolerance: { plus: 0.02 },
    },
    ...leanParameters,
  ],
  drawing: floatingDrawing,
  motion: {
    by: "swing",
    carrier: (machine) => {
      const { longArm, shortArm, armMass, counterweightMass, carriageMass } = machine;
      const body = armBody(machine);
      const centre = body.offset + shortArm;
      // Joint (0, −s sin φ), fulcrum (s cos φ, 0), arm's centre (a cos φ, (a − s) sin φ), tip ((l + s) cos φ, l sin φ).
      const alongDrop = counterweightMass * shortArm ** 2 + armMass * body.offset ** 2;
      const alongTrack = carriageMass * shortArm ** 2 + armMass * centre ** 2;
      return {
        startAngle: startAngleOf(machine.cockedAngle),
        tipX: longArm + shortArm,
        tipY: longArm,
        originY: machine.trackHeight,
        shortArm,
        inertia: body.inertia + alongTrack,
        inertiaCos2: alongDrop - alongTrack,
        mass: armMass + counterweightMass + carriageMass,
        moment: counterweightMass * shortArm - armMass * body.offset,
        levelMoment: carriageMass * shortArm + armMass * centre,
        hanger: null,
        spring: null,
        floats: true,
        endStop: machine.endStop === undefined ? null : { of: "carriage", at: machine.endStop },
        counterweightSize: machine.counterweightSize,
      };
    },
  },
  notModelled: ["The clearance, friction and bending of the tracks and wheels of the floating arm."],
  example: {
    kind: "floating-arm",
    longArm: 2.7,
    shortArm: 1.35,
    trackHeight: 2.1,
    cockedAngle: 45,
    armMass: 16,
    counterweightMass: 180,
    counterweightSize: 0.25,
    carriageMass: 7,
    slingLength: 2.4,
    troughHeight: 0,
    troughFriction: 0.2,
    releaseAngle: 42,
    endStop: 0.9,
    base: "fixed",
    leanAlong: 0,
    leanAcross: 0,
  },
  exampleProjectile: { mass: 2, diameter: 0.18 },
};
