/** Gaps that a machine's own geometry tells, on level ground, arm at every angle. m; negative strikes. */
import type { Machine } from "../throw";
import { armOf } from "./transport/poses";

/** Between a wheel's rim and its track. Common practice, no source. */
export const RIM_CLEARANCE = 0.013;

export interface GroundGaps {
  /** Of the tip where it is cocked, and where the arm would hang straight down. */
  tipCocked: number;
  tipDown: number;
  /** Of the counterweight's lowest point at its lowest; null without one. */
  counterweight: number | null;
  /** Whether the counterweight's radius is declared: without one its centre counts. */
  sized: boolean;
}

/** Null for a kind without an arm that its numbers describe. */
export function groundGaps(machine: Machine): GroundGaps | null {
  const arm = armOf(machine);
  if (!arm) return null;
  const { long, short, pivot, cocked, hanger, size } = arm;
  return {
    tipCocked: pivot - long * Math.sin(cocked),
    tipDown: pivot - long,
    counterweight: machine.kind === "torsion" ? null : pivot - short - hanger - size,
    sized: size > 0,
  };
}

/** How far a hanging counterweight moves to the lower side when the machine leans across by so many degrees, m. */
export const sway = (hangerLength: number, across: number): number =>
  hangerLength * Math.sin((Math.abs(across) * Math.PI) / 180);
