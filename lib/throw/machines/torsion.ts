/**
 * An arm turned by twisted skeins or springs, from where it is cocked to a stop. The projectile lies in a cup at its tip,
 * or in a sling.
 */
import { z } from "zod";
import {
  armBody,
  armParameters,
  cockedAngle,
  cockedParameter,
  leanParameters,
  parameter,
  releaseAngle,
  slingParameters,
  standFields,
  startAngleOf,
} from "./arm";
import { away, between, type Drawing, type Mark, type Part, type Point } from "./drawing";
import { laidOut, slingMarks, troughUnder } from "./drawing-arm";
import type { MachineKind } from "./kind";
import { friction, heightOrZero, inertiaOrZero, length, massOrZero } from "./numbers";

const torque = z.number().min(0).max(1e8);

const torsionSchema = z.strictObject({
  kind: z.literal("torsion"),
  armLength: length,
  armMass: massOrZero,
  /** m from the pivot. */
  armCentre: z.number().min(0).max(200).optional(),
  armInertia: inertiaOrZero.optional(),
  pivotHeight: length,
  cockedAngle,
  /** Degrees above the uprange horizontal at which the arm meets its stop; 90 upright. */
  stopAngle: z.number().min(-90).max(180),
  /** N·m at the stop. */
  preloadTorque: torque,
  /** N·m a radian. */
  stiffness: torque,
  /** Absent: a cup at the tip. */
  slingLength: length.optional(),
  troughHeight: heightOrZero.default(0),
  troughFriction: friction.default(0),
  releaseAngle: releaseAngle.optional(),
  ...standFields,
});

type Torsion = z.output<typeof torsionSchema>;

/** From the trigger to the stop, rad. */
const travelOf = ({ cockedAngle: cocked, stopAngle }: Torsion) => ((cocked + stopAngle) * Math.PI) / 180;

export const torsion: MachineKind<typeof torsionSchema> = {
  kind: "torsion",
  title: "Torsion arm",
  summary: "Twisted rope or springs turn the arm up to a stop; the projectile lies in a cup or a sling.",
  schema: torsionSchema,
  parameters: [
    parameter("armLength", "Arm length", "length", true, "From the pivot to the cup or the sling's pin.", {
      share: 0.01,
    }),
    parameter("pivotHeight", "Pivot height", "length", true, "Of the pivot above the ground.", {
      share: 0.01,
    }),
    cockedParameter,
    parameter(
      "stopAngle",
      "Stop angle",
      "angle",
      true,
      "How far above the uprange horizontal the arm meets its stop: 90 upright, more leans downrange.",
      { plus: 2 },
    ),
    ...armParameters.map((info) =>
      info.name === "armCentre" ? { ...info, help: "From the pivot; the middle if left empty." } : info,
    ),
    parameter("preloadTorque", "Preload torque", "torque", true, "Of the springs at the stop.", {
      share: 0.1,
    }),
    parameter(
      "stiffness",
      "Stiffness",
      "stiffness",
      true,
      "By how much the torque grows with each radian that the arm is drawn back from the stop.",
      { share: 0.1 },
    ),
    ...slingParameters.map((info) => ({ ...info, when: { choice: "holder", is: "sling" } })),
    ...leanParameters,
  ],
  choices: [
    {
      name: "holder",
      label: "The projectile lies in",
      help: "A cup at the arm's tip, or a sling.",
      options: [
        { value: "cup", label: "A cup" },
        { value: "sling", label: "A sling" },
      ],
      writes: { cup: {}, sling: {} },
      reads: ({ slingLength }) => (slingLength === undefined ? "cup" : "sling"),
    },
  ],
  drawing,
  motion: {
    by: "swing",
    carrier: (machine) => {
      const { armLength, armMass, preloadTorque, stiffness } = machine;
      const body = armBody({ ...machine, longArm: armLength, shortArm: 0 });
      const moment = -armMass * body.offset;
      const travel = travelOf(machine);
      const startAngle = startAngleOf(machine.cockedAngle);
      const stop = startAngle - travel;
      return {
        startAngle,
        tipX: armLength,
        tipY: armLength,
        originY: machine.pivotHeight,
        shortArm: 0,
        mass: armMass,
        inertia: body.inertia + armMass * body.offset ** 2,
        inertiaCos2: 0,
        moment,
        levelMoment: -moment,
        hanger: null,
        spring: {
          preload: preloadTorque,
          stiffness,
          stop,
          fade: stiffness > 0 ? Math.min(preloadTorque / stiffness, travel) : travel,
        },
        floats: false,
        endStop: { of: "arm", at: stop },
        counterweightSize: 0,
      };
    },
  },
  refusals: (machine) => {
    const out: { field: string; message: string }[] = [];
    if (machine.slingLength !== undefined && machine.releaseAngle === undefined) {
      const message = "A sling needs its release angle. Leave the sling length empty for a cup.";
      out.push({ field: "releaseAngle", message });
    }
    if (machine.slingLength === undefined && machine.releaseAngle !== undefined) {
      const message =
        "A release angle needs a sling. Give its length, or leave the release angle empty for a cup.";
      out.push({ field: "slingLength", message });
    }
    if (travelOf(machine) < 1e-3) {
      const message =
        "The arm is cocked at its stop or past it. Give a larger stop angle, or cock the arm farther down.";
      out.push({ field: "stopAngle", message });
    }
    return out;
  },
  notModelled: [
    "The mass and the losses of the skeins or springs: all their work goes into arm and projectile.",
    "The give of the stop: the arm stops dead on it, or breaks it and runs on.",
  ],
  example: {
    kind: "torsion",
    armLength: 1.6,
    armMass: 9,
    pivotHeight: 0.9,
    cockedAngle: 10,
    stopAngle: 95,
    preloadTorque: 700,
    stiffness: 500,
    slingLength: 1.1,
    troughHeight: 0.2,
    troughFriction: 0.2,
    releaseAngle: 35,
    base: "fixed",
    leanAlong: 0,
    leanAcross: 0,
  },
  exampleProjectile: { mass: 1.2, diameter: 0.12 },
};

function drawing(machine: Torsion): Drawing {
  const { armLength, pivotHeight, cockedAngle: cocked, stopAngle, slingLength } = machine;
  const pivot: Point = [0, pivotHeight];
  const tip = away(pivot, 180 + cocked, armLength);
  const stopped = away(pivot, 180 - stopAngle, armLength);
  const onStop = away(pivot, 180 - stopAngle, armLength * 0.55);
  const post = away(onStop, 90 - stopAngle, armLength * 0.12);
  const foot = Math.max(0.3 * armLength, Math.abs(post[0]) + 0.1 * armLength);
  const projectile = slingLength === undefined ? tip : laidOut(tip, slingLength, machine.troughHeight);
  const centre = between(pivot, tip, Math.min(1, (machine.armCentre ?? armLength / 2) / armLength));
  const slung: { parts: Part[]; marks: Mark[] } =
    slingLength === undefined
      ? { parts: [], marks: [] }
      : {
          parts: [...troughUnder(tip, projectile), { type: "rope", points: [tip, projectile] }],
          marks: slingMarks(tip, projectile, machine.releaseAngle ?? 0),
        };
  return {
    parts: [
      { type: "frame", points: [[-foot, 0], pivot, [foot, 0]] },
      { type: "frame", points: [[foot, 0], post, onStop] },
      { type: "ghost", points: [pivot, stopped] },
      { type: "arc", centre: pivot, radius: armLength, from: 180 + cocked, to: 180 - stopAngle },
      ...slung.parts,
      { type: "circle", centre: pivot, radius: 0.09 * armLength },
      { type: "beam", points: [tip, pivot] },
      { type: "joint", centre: pivot },
      { type: "projectile", centre: projectile },
    ],
    marks: [
      ...slung.marks,
      { parameter: "armLength", type: "span", from: tip, to: pivot, offset: 34, at: 0.25 },
      { parameter: "armMass", type: "spot", at: between(tip, pivot, 0.05), dx: -30, dy: -34 },
      { parameter: "armCentre", type: "span", from: pivot, to: centre, offset: 26, at: 0.8 },
      { parameter: "armInertia", type: "spot", at: centre, dx: -20, dy: -62 },
      { parameter: "pivotHeight", type: "span", from: [foot, 0], to: [foot, pivotHeight], offset: -26 },
      { parameter: "cockedAngle", type: "angle", vertex: pivot, radius: 110, from: 180, to: 180 + cocked },
      { parameter: "stopAngle", type: "angle", vertex: pivot, radius: 72, from: 180, to: 180 - stopAngle },
      { parameter: "preloadTorque", type: "spot", at: pivot, dx: 46, dy: 34 },
      { parameter: "stiffness", type: "spot", at: pivot, dx: 60, dy: -4 },
    ],
    extent: [tip, stopped, projectile, away(pivot, 90, armLength), [-foot, 0], [foot + 0.4 * armLength, 0]],
    note: "To scale; the broken line is the arm at its stop.",
  };
}
