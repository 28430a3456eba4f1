/** How high and how long a machine with an arm is as it rides, from its own numbers. Its frame is not among them. */
import type { Machine } from "../../throw";

export type Pose = "cocked" | "level";

export interface PoseSize {
  /** Of arm and counterweight above what the machine stands on, m. */
  height: number;
  /** From tip to short end, or what hangs there, m. */
  length: number;
}

/** Null for a kind whose parts do not tell it. */
export function poseOf(machine: Machine, pose: Pose): PoseSize | null {
  const arm = armOf(machine);
  if (!arm) return null;
  const { long, short, pivot, hanger, size } = arm;
  const angle = pose === "cocked" ? arm.cocked : 0;
  const shortEnd = pivot + short * Math.sin(angle);
  const weightTop = shortEnd - hanger + size;
  const reach = short * Math.cos(angle) + (short > 0 ? size : 0);
  return {
    height: Math.max(pivot, shortEnd, pivot - long * Math.sin(angle), weightTop),
    length: long * Math.cos(angle) + Math.max(reach, 0),
  };
}

interface Arm {
  long: number;
  short: number;
  /** Of pivot or fulcrum above the ground. */
  pivot: number;
  /** rad below the horizontal. */
  cocked: number;
  hanger: number;
  /** Half the counterweight's; 0 where it is not declared. */
  size: number;
}

/** The machines with a cocked arm, in the same terms. */
export function armOf(machine: Machine): Arm | null {
  if (!("cockedAngle" in machine)) return null;
  const cocked = (machine.cockedAngle * Math.PI) / 180;
  if (machine.kind === "torsion") {
    return { long: machine.armLength, short: 0, pivot: machine.pivotHeight, cocked, hanger: 0, size: 0 };
  }
  return {
    long: machine.longArm,
    short: machine.shortArm,
    pivot: machine.kind === "floating-arm" ? machine.trackHeight : machine.pivotHeight,
    cocked,
    hanger: machine.kind === "hinged-counterweight" ? machine.hangerLength : 0,
    size: machine.counterweightSize,
  };
}
