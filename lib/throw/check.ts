/** What makes a machine impossible though every number is in range: each with its field and what to do. */

import { conditionsOf } from "./conditions";
import { machineKind } from "./machines/registry";
import { MAX_SIZE } from "./numeric/dop853";
import { isSwung, setupOf, type Throwable } from "./setup";
import { type Carrier, carrierPoints, inCup, stopGap } from "./swing/carrier";
import { Motion } from "./swing/motion";
import { CannotThrow, startState } from "./swing/swing";

export interface Refusal {
  path: string[];
  message: string;
}

const start = new Float64Array(MAX_SIZE);
const metres = (value: number) => `${value.toFixed(2)} m`;

/**
 * The reasons for which this machine with this projectile cannot be computed; empty if there are none.
 * @param given the motion of a swung machine on a held frame, if it is at hand
 */
export function refusals(request: Throwable, given?: Motion): Refusal[] {
  const { machine } = request;
  const out: Refusal[] = [];
  const refuse = (field: string, message: string) => out.push({ path: ["machine", field], message });
  const own = machineKind(machine.kind).refusals?.(machine, conditionsOf(request)) ?? [];
  for (const { field, message } of own) refuse(field, message);
  if (out.length > 0 || !isSwung(machine)) return out;
  const arm = machine.kind === "torsion" ? machine.armLength : machine.longArm + machine.shortArm;
  if (machine.armCentre !== undefined && machine.armCentre > arm) {
    refuse("armCentre", "The arm's centre of mass lies beyond its tip. Measure it from the short end.");
  }
  const motion = given ?? new Motion(setupOf(request));
  const { setup } = motion;
  const { carrier, slingLength, troughHeight } = setup;
  const { tip, shortEnd } = carrierPoints(carrier, carrier.startAngle, 0);
  const tipHeight = motion.height(...tip);
  if (tipHeight < 0) {
    refuse(
      "cockedAngle",
      `The cocked tip would lie ${metres(-tipHeight)} below the ground. Cock the arm less, raise the pivot or shorten the long arm.`,
    );
  }
  const drop = troughHeight - tip[1];
  if (!inCup(setup) && Math.abs(drop) > slingLength) {
    refuse(
      "slingLength",
      `The sling is too short to reach the trough: the cocked tip is ${metres(Math.abs(drop))} from it in height.`,
    );
  }
  if (leastInertia(carrier) <= 1e-9 * carrier.inertia) {
    refuse(
      "armMass",
      "Without any mass in the arm its motion cannot be computed. Weigh the arm, or estimate it.",
    );
  }
  if (out.length > 0) return out;

  if (!inCup(setup)) {
    const slingAngle = Math.atan2(drop, Math.sqrt(slingLength ** 2 - drop ** 2));
    const startAlpha = ((2 * Math.PI + slingAngle - carrier.startAngle) * 180) / Math.PI;
    if (startAlpha > 180) {
      refuse(
        "cockedAngle",
        "The arm is cocked too little: the sling would start beyond the line of the arm.",
      );
    } else if ((machine.releaseAngle ?? 0) >= startAlpha) {
      refuse(
        "releaseAngle",
        `The sling starts at ${startAlpha.toFixed(1)}° to the arm, so it would slip at once. Give a release angle below that.`,
      );
    }
  }
  if (carrier.hanger) {
    const hanging = motion.height(...shortEnd) - carrier.hanger.length;
    if (hanging < 0) {
      refuse("hangerLength", `The cocked counterweight would hang ${metres(-hanging)} below the ground.`);
    }
  }
  if (carrier.endStop?.of === "carriage" && stopGap(carrier, carrier.startAngle) <= 0) {
    const carriage = carrier.shortArm * Math.cos(carrier.startAngle);
    refuse(
      "endStop",
      `The carriage starts at ${metres(carriage)}, already past the end stop. Give a larger number, downrange positive.`,
    );
  }
  if (out.length > 0) return out;
  try {
    startState(motion, start);
    if (machine.base !== "fixed") startState(new Motion(setupOf(request, "rolling")), start);
  } catch (error) {
    if (!(error instanceof CannotThrow)) throw error;
    refuse(error.field, error.message);
  }
  return out;
}

/** What a team may not declare, though the worst case counts it where a tolerance reaches there. */
export function beyondLimits(request: Throwable): Refusal[] {
  return machineKind(request.machine.kind).limits?.(request.machine, conditionsOf(request)) ?? [];
}

/** The least inertia that resists the arm at any angle, kg·m²: a hanging weight square to it gives none. */
function leastInertia({ inertia, inertiaCos2, hanger }: Carrier): number {
  if (hanger) return inertia - hanger.coupling ** 2 / hanger.inertia;
  return Math.min(inertia, inertia + inertiaCos2);
}
