/**
 * The swing from the trigger to the ground or the horizon, with every change of contact on the way, on both
 * branches of an end stop. Plain and slow: fixed steps, each event bisected to the last bit.
 */
import { forces, inelastic, type Mode, slidingSpeed, slingState, step } from "./dynamics";
import {
  type ArmMachine,
  buildMechanism,
  energy,
  GRAVITY,
  inTheWorld,
  type Layout,
  type Mechanism,
  tautLine,
} from "./mechanism";

export interface State {
  t: number;
  q: number[];
  v: number[];
  mode: Mode;
  /** Sling against the arm's outward line, rad, followed continuously; positive before in line. */
  angle: number;
  /** It has been 1 mm above the trough. */
  above: boolean;
  /** The stop can still be met: the carriage has been short of it. */
  armed: boolean;
  stop: "none" | "holds" | "fails";
  slackSeen: boolean;
  /** The angle has fallen to −90°. */
  past: boolean;
  slipped: boolean;
}

export interface SwingEvent {
  kind: string;
  t: number;
  branch: string;
}

/** A stretch without any change of mode: consecutive states, the last one at the event that ends it. */
export interface Segment {
  branch: string;
  states: State[];
}

export interface Swing {
  mechanism: Mechanism;
  segments: Segment[];
  events: SwingEvent[];
  /** Where the loop slips as meant, on the branch of the stop that works; null if never. */
  slip: State | null;
  horizon: number;
}

/** The fixed steps are too long for a motion this quick: nothing gives energy, so more of it is numerical. */
export class StepTooLong extends Error {}

export interface SwingOptions extends Layout {
  /** Steps in √(longArm/g). */
  resolution?: number;
  horizon?: number;
}

const wrap = (angle: number) => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

function angleNear(m: Mechanism, q: number[], previous: number): number {
  const sling = slingState(m, q, q);
  const raw = Math.atan2(sling.y, sling.x) - q[m.armAngle];
  return previous + wrap(raw - previous);
}

const copyState = (s: State): State => ({ ...s, q: s.q.slice(), v: s.v.slice(), mode: { ...s.mode } });

export function advance(m: Mechanism, s: State, h: number): State {
  const next = copyState(s);
  const { q, v } = step(m, s.mode, s.q, s.v, h);
  next.q = q;
  next.v = v;
  next.t = s.t + h;
  if (m.slingLength > 0) next.angle = angleNear(m, q, s.angle);
  return next;
}

const height = (m: Mechanism, s: State) => s.q[m.projectile.y];
const EVENT_ORDER = [
  "stop",
  "ground",
  "slip",
  "past",
  "above",
  "taut",
  "lift",
  "slack",
  "rest",
  "move",
] as const;
type EventKind = (typeof EVENT_ORDER)[number];

/** Which events the state has just passed. */
function passed(m: Mechanism, s: State): EventKind[] {
  const { mode } = s;
  const found: EventKind[] = [];
  if (s.armed && m.beyondStop && m.beyondStop(s.q) > 0) found.push("stop");
  if (!mode.trough) {
    // Clear of trough and ground, where a machine that leans has its trough above one end of it and below the other.
    const high = inTheWorld(m, s.q, s.v).y;
    const lowest = m.slingLength > 0 ? height(m, s) - m.troughHeight : high;
    if (s.above ? high < 0 : high < -0.001 && lowest < -0.001) found.push("ground");
    if (!s.above && high > 0.001 && lowest > 0.001) found.push("above");
    if (!s.slipped && s.angle <= (m.releaseAngle * Math.PI) / 180) found.push("slip");
  }
  // A cup holds its load until it is let go, or until the arm stops beneath it.
  if (m.slingLength === 0) return found.filter((event) => ["stop", "ground", "above"].includes(event));
  if (!s.past && s.angle <= -Math.PI / 2) found.push("past");
  if (mode.loose) {
    const sling = slingState(m, s.q, s.v);
    if (sling.length > m.slingLength * (1 + 1e-11) && sling.growth > 0) found.push("taut");
  } else {
    const f = forces(m, mode, s.q, s.v);
    if (f.tension < 0) found.push("slack");
    if (mode.trough && f.normal < 0) found.push("lift");
    if (mode.trough && mode.slide === 0 && Math.abs(f.grip) > m.troughFriction * f.normal + 1e-12) {
      found.push("move");
    }
  }
  if (mode.trough && m.troughFriction > 0 && mode.slide * slidingSpeed(m, s.v) < 0) found.push("rest");
  return found.sort((a, b) => EVENT_ORDER.indexOf(a) - EVENT_ORDER.indexOf(b));
}

/**
 * Contact mode of a projectile that is on the trough with no sliding velocity, the sling at full length. If the
 * machine, left alone, lets the sling go slack, it lies there loose; else the sling drags it towards the tip; else
 * friction holds it, and with it the whole machine.
 */
function settle(m: Mechanism, s: State): Mode {
  const resting: Mode = { ...s.mode, slide: 0 };
  if (s.mode.loose) return resting;
  const sling = slingState(m, s.q, s.v);
  const left = { ...resting, loose: true };
  const free = forces(m, left, s.q, s.v).acceleration;
  // Second derivative of half the squared distance from the tip to the projectile.
  const row = new Array(s.q.length).fill(0);
  const { bias } = tautLine(m.tip, m.projectile, m.slingLength)(s.q, s.v, row);
  const opening = row.reduce((sum, value, i) => sum + value * free[i], bias);
  if (opening < 0) return left;
  const dragged: Mode = { ...resting, slide: sling.x > 0 ? -1 : 1 };
  const pulled = forces(m, dragged, s.q, s.v);
  const speeding = slidingSpeed(m, pulled.acceleration) * dragged.slide;
  if (pulled.normal < 0 || (pulled.tension >= 0 && speeding > 0)) return dragged;
  return resting;
}

/**
 * The sling comes taut with a jerk: an inelastic impulse along it. Pulling upwards it plucks the load off the trough;
 * pulling downwards it presses the load on it, and the trough answers with friction in proportion.
 */
function jerk(m: Mechanism, s: State) {
  const sling = slingState(m, s.q, s.v);
  const mode: Mode = { ...s.mode, loose: false };
  s.mode = mode;
  if (mode.trough && sling.y < -1e-12) mode.trough = false;
  if (!mode.trough) {
    s.v = inelastic(m, mode, s.q, s.v);
    return;
  }
  const vx = slidingSpeed(m, s.v);
  mode.slide = vx > 0 ? 1 : vx < 0 ? -1 : sling.x > 0 ? -1 : 1;
  const after = inelastic(m, mode, s.q, s.v, m.troughFriction);
  if (slidingSpeed(m, after) * mode.slide > 1e-12) {
    s.v = after;
    return;
  }
  mode.slide = 0;
  s.v = inelastic(m, mode, s.q, s.v);
  s.mode = settle(m, s);
}

function lockAtStop(m: Mechanism, s: State) {
  s.mode.locked = true;
  s.v = inelastic(m, { ...s.mode, loose: true, trough: false }, s.q, s.v);
  if (s.mode.loose) return;
  if (slingState(m, s.q, s.v).growth > 0) jerk(m, s);
  else s.mode.loose = true;
}

function apply(m: Mechanism, s: State, event: EventKind) {
  const { mode } = s;
  if (event === "above") s.above = true;
  else if (event === "past") s.past = true;
  else if (event === "slip") s.slipped = true;
  else if (event === "lift") mode.trough = false;
  else if (event === "taut") jerk(m, s);
  else if (event === "slack") {
    mode.loose = true;
    s.slackSeen = true;
  } else if (event === "rest") {
    s.v[m.projectile.x] = m.frame < 0 ? 0 : s.v[m.frame];
    s.mode = settle(m, s);
  } else if (event === "move") s.mode = settle(m, s);
}

/** The state after the trigger. */
function triggered(m: Mechanism): State {
  const q = m.start.slice();
  const v = new Array(q.length).fill(0);
  const state: State = {
    t: 0,
    q,
    v,
    mode: { trough: true, loose: false, slide: 0, locked: false, failed: false },
    angle: m.slingLength > 0 ? angleNear(m, q, Math.PI / 2) : Math.PI / 2,
    above: false,
    armed: false,
    stop: "none",
    slackSeen: false,
    past: false,
    slipped: false,
  };
  if (m.slingLength > 0) {
    state.mode = settle(m, state);
    state.slackSeen = state.mode.loose;
  } else {
    state.mode = { ...state.mode, trough: false, loose: true };
  }
  return state;
}

export function simulate(machine: ArmMachine, projectileMass: number, options: SwingOptions = {}): Swing {
  const m = buildMechanism(machine, projectileMass, options);
  const scale = Math.sqrt(m.longArm / GRAVITY);
  const horizon = options.horizon ?? 10 * scale;
  const h = scale / (options.resolution ?? 1000);
  const swing: Swing = { mechanism: m, segments: [], events: [], slip: null, horizon };
  const pending: State[] = [triggered(m)];
  for (let s = pending.pop(); s; s = pending.pop()) follow(m, s, h, swing, pending);
  return swing;
}

/** Weight times the height of the arm, J: what the machine's energies are measured against. */
const storedScale = (m: Mechanism) =>
  m.heights.reduce((sum, i) => sum + m.masses[i], 0) * GRAVITY * m.longArm +
  Math.abs(m.drive?.energy(m.start[m.armAngle], false) ?? 0);

function follow(m: Mechanism, from: State, h: number, swing: Swing, pending: State[]) {
  let s = from;
  let segment: Segment = { branch: s.stop, states: [copyState(s)] };
  swing.segments.push(segment);
  const most = energy(m, m.start, new Array(m.start.length).fill(0)) + 1e-2 * storedScale(m);
  for (let count = 0; s.t < swing.horizon; ) {
    if (s.stop === "none" && m.beyondStop && m.beyondStop(s.q) < 0) s.armed = true;
    const size = Math.min(h, swing.horizon - s.t);
    let next = advance(m, s, size);
    let found = passed(m, next);
    if (!(energy(m, next.q, next.v, next.mode.failed) < most))
      throw new StepTooLong("Energy out of nothing.");
    if (found.length === 0) {
      if (size < h) next.t = swing.horizon;
      segment.states.push(next);
      s = next;
      continue;
    }
    let low = 0;
    let high = size;
    for (let i = 0; i < 60 && high - low > 1e-15; i++) {
      const middle = (low + high) / 2;
      const trial = advance(m, s, middle);
      const seen = passed(m, trial);
      if (seen.length > 0) {
        high = middle;
        next = trial;
        found = seen;
      } else low = middle;
    }
    if (++count > 3000) throw new Error("The contact keeps changing: no solution with Coulomb friction.");
    const event = found[0];
    segment.states.push(copyState(next));
    swing.events.push({ kind: event, t: next.t, branch: next.stop });
    if (event === "ground") return;
    if (event === "slip" && next.stop !== "fails" && !swing.slip) swing.slip = copyState(next);
    if (event === "stop") {
      const onward = copyState(next);
      onward.stop = "fails";
      onward.armed = false;
      onward.mode.failed = true;
      pending.push(onward);
      next.stop = "holds";
      next.armed = false;
      if (m.slingLength === 0) {
        // The cup stops and the load flies on as it came.
        swing.slip = copyState(next);
        return;
      }
      lockAtStop(m, next);
    } else apply(m, next, event);
    s = next;
    segment = { branch: s.stop, states: [copyState(s)] };
    swing.segments.push(segment);
  }
}
