/**
 * Plays a film: where everything is at any instant, how it moves and what pulls on it, read off the recorded motion
 * itself. Nothing is drawn between pictures: each instant is evaluated as exactly as it was integrated.
 */
import { bodyOf, stationsOf } from "../loads/body";
import { Pose } from "../loads/pose";
import type { Point } from "../machines/drawing";
import { isSwung, setupOf } from "../setup";
import { inCup } from "../swing/carrier";
import { CUP, LOOSE, LOOSE_ON_TROUGH, type Phase, TROUGH } from "../swing/phase";
import { Trace, type TraceRecord } from "../swing/trace";
import type { Film } from "./film";
import { type Moving, Track } from "./track";

/** What the machine does with its projectile, or after it. */
export type Doing = "trough" | "swing" | "slack" | "cup" | "empty" | "stopped" | "unfollowed";

/** An arm machine at one instant. Points and forces in the world's axes, m and N. */
export interface MachineInstant {
  doing: Doing;
  tip: Point;
  fulcrum: Point;
  shortEnd: Point;
  counterweight: Point;
  /** Where the long arm points, degrees anticlockwise from downrange, and how fast it turns, rad/s. */
  angle: number;
  rate: number;
  /** How far the frame has rolled, m. */
  rolled: number;
  /** Null once the machine stands at its stop, or is followed no longer: the horizon has passed. */
  forces: Forces | null;
}

export interface Forces {
  /** Pull of the sling, or push on the cup, N; what it does to the tip. */
  tension: number;
  onTip: Point;
  /** Of all moving parts on what bears them: the pivot, or both tracks together. */
  onPivot: Point;
  /** Of the counterweight on what carries it. */
  onShortEnd: Point;
  /** Bending moments at the reel's stations, N·m. */
  bending: readonly number[];
}

export interface FilmInstant {
  time: number;
  machine: MachineInstant | null;
  /** What carries the projectile of a machine by formula and turns on without it. */
  holder: Moving | null;
  projectile: Moving & { speed: number; state: "held" | "flying" | "landed" };
}

interface Player {
  pose: Pose;
  loaded: Trace;
  runs: readonly (readonly [number, number])[];
  after: Trace | null;
  stops: boolean;
}

export class Reel {
  /** Where bending is told, m from the pivot towards the tip. */
  readonly stations: readonly number[];
  private readonly player: Player | null;
  private readonly way: Track | null;
  private readonly flight: Track | null;
  private readonly force = new Float64Array(2);
  private readonly ball = new Float64Array(4);

  constructor(readonly film: Film) {
    this.player = playerOf(film);
    this.stations = this.player ? stationsOf(this.player.pose.body) : [];
    this.way = film.way.length > 0 ? new Track(film.way) : null;
    this.flight = film.flight && new Track(film.flight);
  }

  /** @param time s from the trigger; what lies outside the film shows its nearer end */
  at(time: number): FilmInstant {
    const { film, player } = this;
    const at = Math.min(film.end, Math.max(film.begin, time));
    const gone = film.release !== null && at > film.release;
    const machine = player && this.machineAt(player, at, gone);
    const holder = this.way && this.holderAt(this.way, at);
    let moving: Moving;
    if (gone || (!player && !holder)) moving = this.flight?.at(at) ?? STILL;
    else if (holder) moving = holder;
    else {
      const [x, y, vx, vy] = this.ball;
      moving = { x, y, z: 0, vx, vy, vz: 0 };
    }
    const state = !gone ? "held" : at >= film.end ? "landed" : "flying";
    const speed = Math.hypot(moving.vx, moving.vy, moving.vz);
    return { time: at, machine, holder, projectile: { ...moving, speed, state } };
  }

  private holderAt(way: Track, time: number): Moving {
    const { period } = this.film;
    const past = time - way.end;
    return way.at(period === null || past <= 0 ? time : way.begin + (past % period));
  }

  private machineAt(
    { pose, loaded, runs, after, stops }: Player,
    time: number,
    gone: boolean,
  ): MachineInstant {
    const trace = gone && after ? after : loaded;
    const step = gone && after ? stepAt(after, [[0, after.steps]], time) : stepAt(loaded, runs, time);
    const past = (time - trace.begin(step)) / trace.size(step);
    // A loaded arm that stands at its stop has no run without its load.
    const ended = gone && (after ? past > 1 + 1e-9 : true);
    const until =
      gone && !after ? (this.film.release as number) - trace.begin(step) : Number.POSITIVE_INFINITY;
    const fraction = Math.min(1, Math.max(0, past), until / trace.size(step));
    const phase = trace.phase(step);
    pose.recall(trace, step, fraction);
    const forces = ended ? null : this.forces(pose);
    const y = trace.stateAt(step, fraction);
    const { motion } = pose;
    if (!gone) motion.projectile(phase, y, this.ball);
    return {
      ...motion.points(phase, y),
      doing: ended ? (stops ? "stopped" : "unfollowed") : gone ? "empty" : doingIn(phase, inCup(pose.setup)),
      angle: ((pose.phi - pose.setup.lean) * 180) / Math.PI,
      rate: ended ? 0 : pose.rate,
      rolled: motion.frame(phase, y).x,
      forces,
    };
  }

  private forces(pose: Pose): Forces {
    const { force } = this;
    const { ex, ey } = pose.motion;
    const inWorld = ([x, y]: Float64Array): Point => [x * ex + y * ey, y * ex - x * ey];
    pose.frameForce(force);
    const onPivot = inWorld(force);
    pose.counterweightForce(force);
    return {
      tension: Math.max(0, pose.tension),
      onTip: inWorld(pose.tipForce),
      onPivot,
      onShortEnd: inWorld(force),
      bending: this.stations.map((station) => pose.bending(station)),
    };
  }

  /** For drawings: the paths of all that moves, x0, y0, x1, y1, … */
  paths(): FilmPaths {
    const { begin, release, end } = this.film;
    const parted = release ?? end;
    const before = this.instants(begin, parted, 300);
    const after = parted < end ? this.instants(parted, end, 500) : [];
    const of = (instants: readonly FilmInstant[], point: "tip" | "counterweight") =>
      instants.flatMap(({ machine }) => machine?.[point] ?? []);
    const shown = this.player || this.way ? before : [];
    return {
      projectile: shown.flatMap(({ projectile: { x, y } }) => [x, y]),
      tip: of(before, "tip"),
      counterweight: of(before, "counterweight"),
      tipAfter: of(after, "tip"),
      counterweightAfter: of(after, "counterweight"),
      flight: this.flight ? after.flatMap(({ projectile: { x, y } }) => [x, y]) : [],
    };
  }

  private instants(from: number, to: number, count: number): FilmInstant[] {
    return Array.from({ length: count + 1 }, (_, i) => this.at(from + ((to - from) * i) / count));
  }
}

/** Up to the release, or on the whole film without one; `…After` it. Empty of what the machine does not have. */
export interface FilmPaths {
  projectile: readonly number[];
  tip: readonly number[];
  counterweight: readonly number[];
  tipAfter: readonly number[];
  counterweightAfter: readonly number[];
  flight: readonly number[];
}

const STILL: Moving = { x: 0, y: 0, z: 0, vx: 0, vy: 0, vz: 0 };

function playerOf({ request, frame, swing }: Film): Player | null {
  const { machine } = request;
  if (!swing || !isSwung(machine)) return null;
  const setup = setupOf(request, frame);
  const pose = new Pose(setup, bodyOf(machine, setup, request.strengths));
  const played = (record: TraceRecord) => new Trace(pose.motion, record);
  const { runs, after, stops } = swing;
  return { pose, loaded: played(swing.loaded), runs, after: after && played(after), stops };
}

/** The step that is shown at an instant: the last of these that has begun. */
function stepAt(trace: Trace, runs: readonly (readonly [number, number])[], time: number): number {
  let found = runs[0][0];
  for (const [from, to] of runs) {
    if (trace.begin(from) > time) break;
    let low = from;
    let high = to;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (trace.begin(middle) <= time) low = middle;
      else high = middle;
    }
    found = low;
  }
  return found;
}

function doingIn(phase: Phase, cup: boolean): Doing {
  if (phase === LOOSE || phase === LOOSE_ON_TROUGH) return "slack";
  if (phase === CUP || cup) return "cup";
  return phase === TROUGH ? "trough" : "swing";
}
