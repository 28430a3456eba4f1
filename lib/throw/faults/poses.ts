/**
 * Every pose that an arm machine can be in when something of it breaks: along the swing with its load held, and along
 * the swings that follow a torn sling. What may come free then is offered to the flights.
 */
import type { Body } from "../loads/body";
import { outerPart } from "../loads/body";
import type { Lives } from "../loads/lives";
import type { Unloaded } from "../loads/unloaded";
import { LOOSE, type Phase } from "../swing/motion";
import type { PieceFlights, PieceSearch, When } from "./flights";

/** Stations at which the arm may break, from near the tip to the pivot. */
const STATIONS = 12;
/** Poses a step, besides its start: neighbours then differ by a few hundredths of a turn. */
const SAMPLES = 3;

interface Break {
  station: number;
  mass: number;
  centre: number;
  alone: PieceSearch;
  /** With the projectile still in its sling or cup; null where that is not to be told apart. */
  together: PieceSearch;
}

/** Least gaps of the counterweight, m, and when. */
export interface Gap {
  least: number;
  time: number;
  tornAt: number | null;
}

export class Poses {
  readonly breaks: readonly Break[];
  readonly counterweight: PieceSearch;
  readonly carriage: PieceSearch;
  /** Of the counterweight to the ground and to the axle: before the loop should slip, and at any instant. */
  readonly ground: { throw: Gap; any: Gap };
  readonly axle: { throw: Gap; any: Gap };
  /** Fastest speed of the carriage along its track, m/s. */
  carriageSpeed = 0;

  private readonly point = new Float64Array(6);
  private readonly ball = new Float64Array(4);
  private readonly when: When = { time: 0, tornAt: null };
  private readonly body: Body;

  constructor(
    private readonly lives: Lives,
    flights: PieceFlights,
    private readonly nominalTime: number,
  ) {
    const { body, pose } = lives;
    this.body = body;
    const { mass } = pose.setup;
    this.breaks = Array.from({ length: STATIONS }, (_, i) => {
      const station = (body.longArm * i) / STATIONS;
      const part = outerPart(body, station);
      const named = (name: string, total: number) => flights.search({ name, mass: total > 0 ? total : null });
      return {
        station,
        ...part,
        alone: named("Outer piece of the arm", part.mass),
        together: named("Outer piece of the arm with the projectile", part.mass + mass),
      };
    });
    this.counterweight = flights.search({ name: "Counterweight", mass: body.counterweightMass || null });
    const carriage = body.carriageMass + body.armMass;
    this.carriage = flights.search({ name: "Carriage with the arm", mass: carriage || null });
    const none = (): Gap => ({ least: Number.POSITIVE_INFINITY, time: 0, tornAt: null });
    this.ground = { throw: none(), any: none() };
    this.axle = { throw: none(), any: none() };
  }

  /** Every branch of the swing with its load held on to. */
  addSwing(): void {
    const { trace } = this.lives;
    this.when.tornAt = null;
    for (let step = 0; step < trace.steps; step++) {
      for (let i = 0; i <= SAMPLES; i++) {
        this.when.time = trace.begin(step) + (i / SAMPLES) * trace.size(step);
        this.add(trace.phase(step), trace.stateAt(step, i / SAMPLES), true);
      }
    }
  }

  /** An unloaded run, after the loop has slipped or the sling has torn. */
  readonly addRun = ({ trace, since }: Unloaded): void => {
    this.when.tornAt = since;
    for (let step = 0; step < trace.steps; step++) {
      for (let i = 0; i < 2; i++) {
        this.when.time = trace.begin(step) + (i / 2) * trace.size(step);
        this.add(LOOSE, trace.stateAt(step, i / 2), false);
      }
    }
    const last = trace.steps - 1;
    if (last < 0) return;
    this.when.time = trace.begin(last) + trace.size(last);
    this.add(LOOSE, trace.stateAt(last, 1), false);
  };

  private add(phase: Phase, y: Float64Array, loaded: boolean): void {
    const { lives, point, ball, body } = this;
    const { pose } = lives;
    pose.place(phase, y);
    if (body.counterweightMass > 0) this.addCounterweight();
    if (pose.setup.carrier.floats) {
      point.set(pose.fulcrum);
      pose.toGround(point);
      this.carriageSpeed = Math.max(this.carriageSpeed, Math.abs(point[2]));
      this.carriage.offer(point[0], point[1], point[2], point[3], this.when, null);
    }
    ball.set(pose.ball);
    if (loaded) pose.toGround(ball);
    const { mass } = pose.setup;
    for (const { station, mass: part, centre, alone, together } of this.breaks) {
      pose.onArm(centre, point);
      pose.toGround(point);
      alone.offer(point[0], point[1], point[2], point[3], this.when, station);
      if (!loaded) continue;
      const share = mass / (mass + part);
      for (let i = 0; i < 4; i++) point[i] += share * (ball[i] - point[i]);
      together.offer(point[0], point[1], point[2], point[3], this.when, station);
    }
  }

  private addCounterweight(): void {
    const { pose } = this.lives;
    const { counterweight, fulcrum } = pose;
    const axle = Math.hypot(counterweight[0] - fulcrum[0], counterweight[1] - fulcrum[1]);
    pose.toGround(counterweight);
    const [x, y, vx, vy] = counterweight;
    this.counterweight.offer(x, y, vx, vy, this.when, null);
    const size = this.body.counterweightSize;
    this.less(this.ground, y - size);
    this.less(this.axle, axle - size);
  }

  private less(gaps: { throw: Gap; any: Gap }, gap: number): void {
    const meant = this.when.tornAt === null && this.when.time <= this.nominalTime;
    if (gap < gaps.any.least) gaps.any = { least: gap, ...this.when };
    if (meant && gap < gaps.throw.least) gaps.throw = { least: gap, ...this.when };
  }
}
