/**
 * The pull of a line that turns a body slowly about a pivot: an arm that is cocked, a frame that is stood up. Virtual
 * work: what the line gives as it shortens, −T·dL, is what weight and springs take, dV. So T = −V′(φ) / L′(φ), without
 * friction. The worst angle is found by looking at every quarter degree: between these T changes by less than 0.1 %.
 */
import type { Machine } from "../../throw";
import { armOf } from "../transport/poses";

export interface Turning {
  /** Directions of the body at start and end, rad; `to` is the larger. */
  from: number;
  to: number;
  /** V′ of weight and springs, N·m, positive where they resist. */
  resists: (phi: number) => number;
  /** Where the line holds: (x cos φ, y sin φ) from the pivot, m. */
  hold: { x: number; y: number };
}

export interface Pull {
  /** rad */
  phi: number;
  /** N */
  pull: number;
  /** Between the line and the pivot, m: the lever with which it pulls. */
  lever: number;
}

export type Turned =
  | { ok: true; worst: Pull; first: Pull; last: Pull; byItself: number | null }
  /** From there the line does not turn the body on: it pulls along it, or back. */
  | { ok: false; blocked: number };

const STEP = Math.PI / 720;
/** Less is no moment, N·m: where a body stands upright its own is rounding. */
const NO_MOMENT = 1e-6;

/**
 * @param winch where the line leads to, from the pivot, m
 * @returns `byItself`: the first angle from which the body goes on by itself and must be held back, null without one
 */
export function turn(turning: Turning, winch: { x: number; y: number }): Turned {
  const { from, to } = turning;
  const steps = Math.max(1, Math.ceil((to - from) / STEP));
  let worst: Pull | null = null;
  let first: Pull | null = null;
  let last: Pull | null = null;
  let byItself: number | null = null;
  for (let i = 0; i <= steps; i++) {
    const phi = from + ((to - from) * i) / steps;
    const found = pullAt(turning, winch, phi);
    if (found === "by-itself") {
      byItself ??= phi;
      continue;
    }
    if (found === "blocked") return { ok: false, blocked: phi };
    first ??= found;
    last = found;
    if (!worst || found.pull > worst.pull) worst = found;
  }
  const none = { phi: from, pull: 0, lever: 0 };
  return { ok: true, worst: worst ?? none, first: first ?? none, last: last ?? none, byItself };
}

function pullAt({ resists, hold }: Turning, winch: { x: number; y: number }, phi: number) {
  const [cos, sin] = [Math.cos(phi), Math.sin(phi)];
  const [dx, dy] = [hold.x * cos - winch.x, hold.y * sin - winch.y];
  const length = Math.hypot(dx, dy);
  // How fast the line shortens with the angle.
  const lever = length > 0 ? (dx * hold.x * sin - dy * hold.y * cos) / length : 0;
  const moment = resists(phi);
  if (moment < -NO_MOMENT) return "by-itself" as const;
  if (moment <= NO_MOMENT) return { phi, pull: 0, lever };
  if (lever <= 0) return "blocked" as const;
  return { phi, pull: moment / lever, lever };
}

/**
 * Cocking: a counterweight's arm from upright, a torsion arm from its stop, down to where it is cocked.
 * @param held how far from the pivot towards the tip the line holds, m; the tip without it
 */
export function cocking(machine: Machine, gravity: number, held?: number): Turning | null {
  const arm = armOf(machine);
  if (!arm || !("cockedAngle" in machine)) return null;
  const at = Math.min(held ?? arm.long, arm.long);
  const whole = arm.long + arm.short;
  const offset = (machine.armCentre ?? whole / 2) - arm.short;
  const to = Math.PI + arm.cocked;
  if (machine.kind === "torsion") {
    const from = Math.PI - (machine.stopAngle * Math.PI) / 180;
    const { preloadTorque, stiffness, armMass } = machine;
    return {
      from,
      to,
      resists: (phi) => preloadTorque + stiffness * (phi - from) + gravity * armMass * offset * Math.cos(phi),
      hold: { x: at, y: at },
    };
  }
  const moment = machine.counterweightMass * arm.short - machine.armMass * offset;
  return {
    from: Math.PI / 2,
    to,
    // Hung counterweights hang straight down while this is done slowly.
    resists: (phi) => -gravity * moment * Math.cos(phi),
    // A floating arm's fulcrum is at x = shortArm · cos φ itself.
    hold: { x: machine.kind === "floating-arm" ? at + arm.short : at, y: at },
  };
}

export interface Winch {
  /** How far from the pivot towards the tip the line holds, m; at the tip without it. */
  held?: number | undefined;
  /** Of winch or last sheave: uprange of the pivot, right below the cocked tip without it; above the ground, m. */
  uprange?: number | undefined;
  height?: number | undefined;
}

/** Cocking a machine by a winch; null for a kind that is not cocked so. */
export function cockedBy(machine: Machine, gravity: number, winch: Winch = {}): Turned | null {
  const turning = cocking(machine, gravity, winch.held);
  const pivot = armOf(machine)?.pivot;
  if (!turning || pivot === undefined) return null;
  const uprange = winch.uprange ?? -turning.hold.x * Math.cos(turning.to);
  return turn(turning, { x: -uprange, y: (winch.height ?? 0) - pivot });
}

/** Standing up what lies level, hinged at its foot, by a line over a gin pole or from a winch. */
export const standingUp = (
  { mass, centre, held }: { mass: number; centre: number; held: number },
  gravity: number,
): Turning => ({
  from: 0,
  to: Math.PI / 2,
  resists: (phi) => gravity * mass * centre * Math.cos(phi),
  hold: { x: held, y: held },
});
