/** The machine's own numbers beside a line of the checklist, in SI. Whoever shows them gives them units. */
import type { Loads, Reserve } from "../../throw";
import type { Dimension } from "../../units";
import { groundGaps } from "../clearance";
import { cockedBy } from "../raise/turn";
import { armOf } from "../transport/poses";
import type { Known } from "./known";

export interface Figure {
  label: string;
  /** SI, degrees for angles; null for what should have been declared and is not. */
  value: number | null;
  dimension: Dimension;
}

const figure = (label: string, value: number | null | undefined, dimension: Dimension): Figure[] =>
  value === undefined ? [] : [{ label, value, dimension }];

function reserve(label: string, found: Reserve, dimension: Dimension, bears = "what it bears"): Figure[] {
  return [
    ...figure(label, found.load, dimension),
    ...figure(bears, found.strength, dimension),
    ...(found.reserve === null
      ? []
      : [
          ...figure("reserve", found.reserve, "ratio"),
          ...figure("usual factor", found.designFactor, "ratio"),
        ]),
  ];
}

export const slingFigures = ({ loads }: Known): Figure[] => [
  ...(loads?.sling ? reserve("peak tension of the throw", loads.sling.reserve, "force") : []),
  ...(loads?.sling?.hangUpReserve
    ? figure("peak tension of a hang-up", loads.sling.hangUpReserve.load, "force")
    : []),
];

/** N·m where no section is declared. */
export function armFigures({ loads }: Known): Figure[] {
  if (!loads?.arm) return [];
  const { reserve: found, envelope } = loads.arm;
  const stressed = envelope.some(({ stress }) => stress !== null);
  return reserve(
    stressed ? "peak bending stress" : "peak bending moment",
    found,
    stressed ? "stress" : "torque",
  );
}

export interface FramePush {
  /** The largest level one, downrange or uprange, and the largest lift, N. */
  level: number;
  upward: number;
}

/**
 * What the moving parts push the frame with: in the throw as meant and swinging on after it, and when the projectile
 * hangs up. Null for kinds whose push is not computed, and for a hang-up that there is not.
 */
export function framePush({ pivot }: Loads): { meant: FramePush; hangUp: FramePush | null } | null {
  if (!pivot) return null;
  const most = (...lives: (keyof typeof pivot.force)[]): FramePush | null => {
    const pushes = lives.flatMap((life) => pivot.force[life] ?? []);
    if (pushes.length === 0) return null;
    return {
      level: Math.max(...pushes.map(({ downrange, uprange }) => Math.max(downrange, uprange))),
      upward: Math.max(...pushes.map(({ upward }) => upward)),
    };
  };
  const meant = most("throw", "after");
  return meant && { meant, hangUp: most("hangUp") };
}

export const pivotFigures = ({ loads }: Known): Figure[] =>
  loads?.pivot ? reserve("peak push on the frame", loads.pivot.reserve, "force", "what the pivot bears") : [];

export function anchorFigures({ loads }: Known): Figure[] {
  const push = loads && framePush(loads);
  return push
    ? [
        ...figure("peak level push", push.meant.level, "force"),
        ...figure("peak lift", push.meant.upward, "force"),
        ...(push.hangUp ? figure("peak level push of a hang-up", push.hangUp.level, "force") : []),
      ]
    : [];
}

export function weightFigures({ declaration: { machine }, loads }: Known): Figure[] {
  return [
    ...("counterweightMass" in machine ? figure("declared", machine.counterweightMass, "mass") : []),
    ...(loads?.hanger ? reserve("peak pull on its hanger", loads.hanger.reserve, "force") : []),
  ];
}

export function gapFigures({ declaration: { machine } }: Known): Figure[] {
  const gaps = groundGaps(machine);
  if (!gaps) return [];
  return [
    ...figure("tip to ground, cocked", gaps.tipCocked, "length"),
    ...figure("tip to ground, hanging down", gaps.tipDown, "length"),
    ...(gaps.counterweight === null
      ? []
      : figure("counterweight to ground at its lowest", gaps.counterweight, "length")),
  ];
}

export const stopFigures = ({ dryFire, declaration }: Known): Figure[] =>
  dryFire
    ? [
        ...(dryFire.atStop === null ? [] : figure("dry fire at the stop", dryFire.atStop, "energy")),
        ...figure("let loose by a dry fire", dryFire.loose, "energy"),
        ...figure("force the stop bears", declaration.strengths?.stop?.force ?? null, "force"),
      ]
    : [];

export const pinFigures = ({ declaration: { machine } }: Known): Figure[] =>
  "releaseAngle" in machine && machine.releaseAngle !== undefined
    ? figure("release angle as declared", machine.releaseAngle, "angle")
    : [];

export const springFigures = ({ declaration: { machine } }: Known): Figure[] =>
  machine.kind === "torsion"
    ? figure(
        "torque when cocked",
        machine.preloadTorque +
          (machine.stiffness * (machine.cockedAngle + machine.stopAngle) * Math.PI) / 180,
        "torque",
      )
    : [];

/** Of a winch right below the cocked tip. */
export function winchFigures({ declaration: { machine }, gravity }: Known): Figure[] {
  const turned = gravity === null ? null : cockedBy(machine, gravity);
  return turned?.ok ? figure("largest pull at the tip", turned.worst.pull, "force") : [];
}

export const drawFigures = ({ loads }: Known): Figure[] =>
  loads?.draw
    ? [
        ...figure("force at full draw", loads.draw.peakForce, "force"),
        ...figure("stored at full draw", loads.draw.storedEnergy, "energy"),
      ]
    : [];

export const hubFigures = ({ loads }: Known): Figure[] =>
  loads?.spin
    ? [
        ...figure("pull of the projectile", loads.spin.projectilePull, "force"),
        ...figure("pull of the arm", loads.spin.armPull, "force"),
      ]
    : [];

export const chamberFigures = ({ declaration: { machine }, loads }: Known): Figure[] =>
  machine.kind === "air-cannon"
    ? [
        ...figure("pressure at the shot", machine.chamberPressure, "gauge"),
        ...figure("rated", machine.ratedPressure, "gauge"),
        ...(loads?.chamber?.reserve.reserve == null
          ? []
          : figure("reserve", loads.chamber.reserve.reserve, "ratio")),
      ]
    : [];

export const capFigures = ({ loads }: Known): Figure[] =>
  loads?.chamber ? figure("force of the gas on a cap of the bore", loads.chamber.capForce, "force") : [];

export const leanFigures = ({ declaration: { machine } }: Known): Figure[] =>
  "leanAlong" in machine
    ? [
        ...figure("lean along, as declared", machine.leanAlong, "angle"),
        ...figure("lean across, as declared", machine.leanAcross, "angle"),
      ]
    : [];

export const projectileFigures = ({ declaration: { projectile } }: Known): Figure[] => [
  ...figure("mass", projectile.mass, "mass"),
  ...figure("diameter", projectile.diameter, "length"),
];

/** How far from the pivot anything turns, m; null where the numbers do not tell. */
export function sweptRadius({ declaration: { machine } }: Known): number | null {
  if (machine.kind === "spinning-arm") return machine.armLength;
  const arm = armOf(machine);
  if (!arm) return null;
  const sling = "slingLength" in machine ? (machine.slingLength ?? 0) : 0;
  return Math.max(arm.long + sling, arm.short + arm.hanger + arm.size);
}

export function sweepFigures(known: Known): Figure[] {
  const radius = sweptRadius(known);
  return radius === null ? [] : figure("swept from the pivot", radius, "length");
}
