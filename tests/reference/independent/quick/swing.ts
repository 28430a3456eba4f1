/**
 * The swing of ./equations.ts by fixed steps of classical Runge-Kutta, shortened while the sling whirls; events by
 * bisection. Every step leaves a sample: time, place, velocity and acceleration of the load in the axes of the world.
 */
import type { ArmMachine } from "../mechanism";
import { ARM, type Contact, Equations, FRAME, HANGER, type Options, PX, PY, RATE, SIZE } from "./equations";

/** Numbers of a sample: t, x, y, vx, vy, ax, ay. */
export const STRIDE = 7;

export interface Run {
  /** STRIDE numbers a sample. */
  samples: Float64Array;
  count: number;
  /** Index of the first sample of each stretch without a jump. */
  starts: number[];
  /** By sample: 1 where the sling's angle has fallen to −90°. */
  past: Uint8Array;
  horizon: number;
}

export interface QuickOptions extends Options {
  /** Steps in √(longArm/g). */
  resolution?: number;
  horizon?: number | undefined;
}

interface State {
  t: number;
  y: Float64Array;
  contact: Contact;
  angle: number;
  above: boolean;
  armed: boolean;
  branched: boolean;
  past: boolean;
}

type Event = "stop" | "ground" | "past" | "above" | "taut" | "lift" | "slack" | "rest" | "move";

const copyOf = (s: State): State => ({ ...s, y: s.y.slice(), contact: { ...s.contact } });

export class QuickSwing {
  private readonly e: Equations;
  private samples = new Float64Array(STRIDE * 4096);
  private past = new Uint8Array(4096);
  private count = 0;
  private readonly starts: number[] = [];
  private readonly horizon: number;
  private readonly step: number;
  private readonly pending: State[] = [];
  private readonly k = [0, 1, 2, 3].map(() => new Float64Array(SIZE));
  private readonly trial = new Float64Array(SIZE);
  private readonly cos: number;
  private readonly sin: number;

  constructor(machine: ArmMachine, mass: number, options: QuickOptions = {}) {
    this.e = new Equations(machine, mass, options);
    const scale = Math.sqrt(this.e.longArm / (options.gravity ?? 9.80665));
    this.horizon = options.horizon ?? 10 * scale;
    this.step = scale / (options.resolution ?? 120);
    this.cos = Math.cos(this.e.lean);
    this.sin = Math.sin(this.e.lean);
  }

  run(): Run {
    this.pending.push(this.triggered());
    for (let s = this.pending.pop(); s; s = this.pending.pop()) this.follow(s);
    const { samples, count, starts, past, horizon } = this;
    return { samples, count, starts, past, horizon };
  }

  private triggered(): State {
    const { e } = this;
    const contact: Contact = { trough: true, loose: false, slide: 0, locked: false, failed: false };
    const state: State = {
      t: 0,
      y: e.start.slice(),
      contact,
      angle: Math.PI / 2,
      above: false,
      armed: false,
      branched: false,
      past: false,
    };
    if (e.sling > 0) {
      state.angle = this.angleAt(state.y, Math.PI / 2);
      this.settle(state);
    } else {
      contact.trough = false;
      contact.loose = true;
    }
    return state;
  }

  private angleAt(y: Float64Array, previous: number): number {
    const s = this.e.slingOf(y);
    const raw = Math.atan2(s.y, s.x) - y[ARM] - previous;
    return previous + raw - 2 * Math.PI * Math.round(raw / (2 * Math.PI));
  }

  /** One Runge-Kutta step; the derivative at its start is already in k[0]. */
  private advance(from: State, h: number, to: Float64Array) {
    const { e, k, trial } = this;
    const { y, contact } = from;
    for (let i = 0; i < SIZE; i++) trial[i] = y[i] + (h / 2) * k[0][i];
    e.derivative(trial, contact, k[1]);
    for (let i = 0; i < SIZE; i++) trial[i] = y[i] + (h / 2) * k[1][i];
    e.derivative(trial, contact, k[2]);
    for (let i = 0; i < SIZE; i++) trial[i] = y[i] + h * k[2][i];
    e.derivative(trial, contact, k[3]);
    for (let i = 0; i < SIZE; i++) to[i] = y[i] + (h / 6) * (k[0][i] + 2 * (k[1][i] + k[2][i]) + k[3][i]);
    e.project(to, contact);
  }

  /** The first event that the state has passed; `e` holds the forces there. */
  private passed(s: State): Event | null {
    const { e } = this;
    const { contact: c, y } = s;
    if (s.armed && e.pastStop && e.pastStop(y) > 0) return "stop";
    const high = y[PY] * this.cos - y[PX] * this.sin;
    const lowest = e.sling > 0 ? y[PY] - e.trough : high;
    if (!c.trough) {
      if (s.above ? high < 0 : high < -0.001 && lowest < -0.001) return "ground";
      if (!s.above && high > 0.001 && lowest > 0.001) return "above";
    }
    if (e.sling === 0) return null;
    if (!s.past && s.angle <= -Math.PI / 2) return "past";
    if (c.loose) {
      const sling = e.slingOf(y);
      if (sling.length > e.sling * (1 + 1e-11) && sling.growth > 0) return "taut";
    } else {
      if (c.trough && e.normal < 0) return "lift";
      if (e.tension < 0) return "slack";
      if (c.trough && c.slide === 0 && Math.abs(e.grip) > e.friction * e.normal + 1e-12) return "move";
    }
    const sliding = y[RATE + PX] - y[RATE + FRAME];
    if (c.trough && e.friction > 0 && c.slide * sliding < 0) return "rest";
    return null;
  }

  private settle(s: State) {
    const { e } = this;
    const { contact: c, y } = s;
    const scratch = this.k[1];
    c.slide = 0;
    if (c.loose) return;
    // Left alone, does the machine close the gap? Then the sling is slack.
    c.loose = true;
    e.derivative(y, c, scratch);
    const probe = this.trial;
    const tiny = 1e-5 * this.step;
    for (let i = 0; i < SIZE; i++) probe[i] = y[i] + tiny * scratch[i];
    if (e.slingOf(probe).growth - e.slingOf(y).growth < 0) return;
    c.loose = false;
    const sling = e.slingOf(y);
    c.slide = sling.x > 0 ? -1 : 1;
    e.derivative(y, c, scratch);
    const speeding = (scratch[RATE + PX] - scratch[RATE + FRAME]) * c.slide;
    if (e.normal < 0 || (e.tension >= 0 && speeding > 0)) return;
    c.slide = 0;
  }

  private jerk(s: State) {
    const { e } = this;
    const { contact: c, y } = s;
    c.loose = false;
    if (c.trough && e.slingOf(y).y < -1e-12) c.trough = false;
    if (!c.trough) {
      e.jerk(y, c);
      return;
    }
    const sliding = y[RATE + PX] - y[RATE + FRAME];
    c.slide = sliding > 0 ? 1 : sliding < 0 ? -1 : e.slingOf(y).x > 0 ? -1 : 1;
    const before = y.slice();
    e.jerk(y, c);
    if ((y[RATE + PX] - y[RATE + FRAME]) * c.slide > 1e-12) return;
    y.set(before);
    c.slide = 0;
    e.jerkToRest(y, c);
    this.settle(s);
  }

  private apply(s: State, event: Event): boolean {
    const { e } = this;
    const { contact: c, y } = s;
    if (event === "ground") return false;
    if (event === "above") s.above = true;
    else if (event === "past") s.past = true;
    else if (event === "lift") c.trough = false;
    else if (event === "taut") this.jerk(s);
    else if (event === "slack") c.loose = true;
    else if (event === "move") this.settle(s);
    else if (event === "rest") {
      y[RATE + PX] = y[RATE + FRAME];
      this.settle(s);
    } else {
      const onward = copyOf(s);
      onward.branched = true;
      onward.armed = false;
      onward.contact.failed = true;
      this.pending.push(onward);
      if (e.sling === 0) return false;
      s.branched = true;
      s.armed = false;
      e.lock(y);
      c.locked = true;
      if (!c.loose) {
        if (e.slingOf(y).growth > 0) this.jerk(s);
        else c.loose = true;
      }
    }
    return true;
  }

  private record(s: State) {
    if (this.count * STRIDE === this.samples.length) {
      const more = new Float64Array(this.samples.length * 2);
      more.set(this.samples);
      this.samples = more;
      const flags = new Uint8Array(this.past.length * 2);
      flags.set(this.past);
      this.past = flags;
    }
    const { samples, cos, sin } = this;
    const at = this.count * STRIDE;
    const { y } = s;
    const k0 = this.k[0];
    samples[at] = s.t;
    samples[at + 1] = y[PX] * cos + y[PY] * sin;
    samples[at + 2] = y[PY] * cos - y[PX] * sin;
    samples[at + 3] = y[RATE + PX] * cos + y[RATE + PY] * sin;
    samples[at + 4] = y[RATE + PY] * cos - y[RATE + PX] * sin;
    samples[at + 5] = k0[RATE + PX] * cos + k0[RATE + PY] * sin;
    samples[at + 6] = k0[RATE + PY] * cos - k0[RATE + PX] * sin;
    this.past[this.count] = s.past ? 1 : 0;
    this.count++;
  }

  private begin(s: State) {
    this.starts.push(this.count);
    this.e.derivative(s.y, s.contact, this.k[0]);
    this.record(s);
  }

  private follow(from: State) {
    const { e, k } = this;
    let s = from;
    let next = copyOf(s);
    this.begin(s);
    for (let events = 0; s.t < this.horizon; ) {
      if (!s.branched && e.pastStop && e.pastStop(s.y) < 0) s.armed = true;
      const { y } = s;
      let rate = Math.max(Math.abs(y[RATE + ARM]), Math.abs(y[RATE + HANGER] - y[RATE + ARM]));
      if (e.sling > 0) rate = Math.max(rate, e.slingOf(y).speed / e.sling);
      const h = Math.min(this.step, 0.04 / rate, this.horizon - s.t + 1e-12);
      this.take(s, h, next);
      e.derivative(next.y, next.contact, k[1]);
      let event = this.passed(next);
      if (event) {
        let low = 0;
        let high = h;
        for (let i = 0; i < 44 && high - low > 1e-14; i++) {
          const middle = (low + high) / 2;
          this.take(s, middle, next);
          e.derivative(next.y, next.contact, k[1]);
          const seen = this.passed(next);
          if (seen) {
            high = middle;
            event = seen;
          } else low = middle;
        }
        this.take(s, high, next);
        e.derivative(next.y, next.contact, k[1]);
        event = this.passed(next) ?? event;
      }
      k[0].set(k[1]);
      this.record(next);
      [s, next] = [next, s];
      if (!event) continue;
      if (++events > 500 || !this.apply(s, event)) return;
      this.begin(s);
    }
  }

  private take(s: State, h: number, next: State) {
    this.advance(s, h, next.y);
    next.t = s.t + h;
    Object.assign(next.contact, s.contact);
    next.above = s.above;
    next.armed = s.armed;
    next.branched = s.branched;
    next.past = s.past;
    next.angle = this.e.sling > 0 ? this.angleAt(next.y, s.angle) : s.angle;
  }
}
