/**
 * Pieces of the machine that come down at the target: the same failures, poses and stations as the hazard sheet's,
 * but asked where each piece lands instead of how far it can go.
 */
import { nominalAir } from "../case";
import type { Piece } from "../contracts/faults";
import type { Policy } from "../contracts/policy";
import type { HazardRequest } from "../contracts/request";
import { compactDiameter, PieceFlights, type PieceOf, PieceSearch, type When } from "../faults/flights";
import type { Air } from "../flight/flight";
import { projectileAir } from "../flight/projectile";
import type { WorstAirs } from "../worst/scan";
import { crossing, type Landed, type Lander, type Limits, STRAIGHT, type Start, type Turn } from "./landing";
import { RADIAN } from "./target";

/** One piece that lands at the target, or as near as it comes. */
export interface PieceHit {
  of: PieceOf;
  start: Start;
  time: number | null;
  tornAt: number | null;
  station: number | null;
  turn: Turn;
  turnBy: "none" | "debris" | "torn-sling" | "all-round";
  landed: Landed;
  miss: number;
}

/** Landings kept of each piece: so many without a torn sling, and so many after one. */
const KEPT = 2;
/** Airless landings within these shares of the target's distance are flown: drag shortens, a tail wind lengthens. */
const FLOWN = { from: 0.85, to: 2.5 };
/** Poses farther apart in time than this are no neighbours, s. */
const NEIGHBOURS = 0.5;
/** m/s, as the hazard sheet flies pieces. */
const FASTEST = 1700;
const ON_TARGET = 0.01;
/** Elevations of what may leave in any direction, degrees. */
const ELEVATIONS = { from: -10, to: 88, by: 3 };

interface Offered extends Start {
  time: number;
  tornAt: number | null;
  station: number | null;
  /** How far beyond the target it lands, m. */
  beyond: number;
}

/** What the failures hand their pieces to. */
export class TargetFlights extends PieceFlights {
  readonly searches: TargetSearch[] = [];
  readonly anywhere: PieceHit[] = [];

  constructor(
    private readonly request: HazardRequest,
    airs: WorstAirs,
    policy: Policy,
    readonly lander: Lander,
    readonly limits: Limits,
  ) {
    super(airs, policy);
  }

  override search(of: PieceOf): TargetSearch {
    const search = new TargetSearch(this, of);
    this.searches.push(search);
    return search;
  }

  /** The mean wind; what comes off flies as compact as steel with the low drag of an irregular body. */
  airOf({ mass, like }: PieceOf): Air {
    const diameter = like?.diameter ?? compactDiameter(mass ?? 1);
    const { lowDrag } = projectileAir({ mass: 1, diameter: 1, shape: "irregular" });
    return {
      ...nominalAir(this.request),
      mass: mass ?? 1,
      diameter,
      area: (Math.PI / 4) * diameter ** 2,
      drag: mass === null ? 0 : (like?.drag ?? lowDrag),
    };
  }

  override flyAnywhere(of: PieceOf, speed: number, height: number, station: number | null): Piece[] {
    const { lander } = this;
    const air = this.airOf(of);
    const flown = Math.min(speed, FASTEST);
    const towards: Turn = { plane: lander.target.azimuth, velocity: 0 };
    const at = (degrees: number): Start => ({
      x: 0,
      y: height,
      vx: flown * Math.cos(degrees * RADIAN),
      vy: flown * Math.sin(degrees * RADIAN),
    });
    const hitAt = (degrees: number): PieceHit => {
      let turn = towards;
      let landed = lander.land(at(degrees), air, turn, true);
      turn = lander.corrected(at(degrees), turn, landed, { plane: 2 * Math.PI, velocity: 0 });
      landed = lander.land(at(degrees), air, turn, true);
      const miss = lander.miss(landed);
      return {
        of,
        start: at(degrees),
        time: null,
        tornAt: null,
        station,
        turn,
        turnBy: "all-round",
        landed,
        miss,
      };
    };
    const beyond = (degrees: number, careful: boolean) =>
      lander.beyond(lander.land(at(degrees), air, towards, careful));
    let nearest = ELEVATIONS.from;
    let least = Number.POSITIVE_INFINITY;
    let last = Number.NaN;
    let met = false;
    for (let degrees = ELEVATIONS.from; degrees <= ELEVATIONS.to; degrees += ELEVATIONS.by) {
      const here = beyond(degrees, false);
      if (last * here <= 0) {
        met = true;
        const from = degrees - ELEVATIONS.by;
        this.anywhere.push(hitAt(crossing((each) => beyond(each, true), from, degrees, ON_TARGET)));
      }
      if (Math.abs(here) < least) {
        least = Math.abs(here);
        nearest = degrees;
      }
      last = here;
    }
    if (!met) this.anywhere.push(hitAt(nearest));
    return [];
  }

  /** Every piece found, of every search. */
  hits(): PieceHit[] {
    return [...this.searches.flatMap((search) => search.hits()), ...this.anywhere];
  }
}

/** The candidates of one piece: neighbours between which a landing crosses the target, and the nearest of all. */
class TargetSearch extends PieceSearch {
  private before: Offered | null = null;
  private readonly whole: [Offered, Offered][] = [];
  private readonly torn: [Offered, Offered][] = [];
  private nearest: Offered | null = null;
  private readonly air: Air;

  constructor(
    private readonly of_: TargetFlights,
    private readonly piece: PieceOf,
  ) {
    super(of_, piece);
    this.air = of_.airOf(piece);
  }

  override offer(x: number, y: number, vx: number, vy: number, when: When, station: number | null): void {
    const { before } = this;
    const beyond = this.judge(x, y, vx, vy);
    if (beyond === null) {
      this.before = null;
      return;
    }
    const here = { x, y, vx, vy, time: when.time, tornAt: when.tornAt, station, beyond };
    if (!this.nearest || Math.abs(beyond) < Math.abs(this.nearest.beyond)) this.nearest = here;
    if (before && before.tornAt === here.tornAt && before.beyond * beyond <= 0) {
      const gap = here.time - before.time;
      const list = here.tornAt === null ? this.whole : this.torn;
      if (gap >= 0 && gap < NEIGHBOURS && list.length < KEPT) list.push([before, here]);
    }
    this.before = here;
  }

  override fly(): void {}

  override pieces(): Piece[] {
    return [];
  }

  /** How far beyond the target it lands, m; null where no turn brings it there. Airless where that leaves no doubt. */
  private judge(x: number, y: number, vx: number, vy: number): number | null {
    const { lander, limits } = this.of_;
    const { distance } = lander.target;
    const start = { x, y, vx, vy };
    const turn = lander.turnFor(start, limits);
    if (!turn) return null;
    const { gravity, below } = this.air;
    const square = vy * vy + 2 * gravity * Math.max(0, y + below);
    const time = y + below > 0 || vy > 0 ? (vy + Math.sqrt(square)) / gravity : 0;
    const kept = Math.cos(turn.velocity);
    const range = Math.hypot(x + vx * kept * time, Math.hypot(vx, vy) * Math.sin(turn.velocity) * time);
    // Bounce and roll come on top of what is judged here: then everything is flown.
    const doubt = lander.target.rest || (range > FLOWN.from * distance && range < FLOWN.to * distance);
    if (!doubt) return range - distance;
    const flown = turn.velocity === 0 ? STRAIGHT : turn;
    const { endX, endZ } = lander.land(start, this.air, flown, false);
    return (endX * vx < 0 && turn.velocity === 0 ? -1 : 1) * Math.hypot(endX, endZ) - distance;
  }

  hits(): PieceHit[] {
    const met = [...this.whole, ...this.torn].flatMap(([a, b]) => this.solved(a, b) ?? []);
    if (met.length > 0 || !this.nearest) return met;
    return this.solved(this.nearest, this.nearest) ?? [];
  }

  /** Between two neighbouring poses the piece is taken to move and turn evenly. */
  private solved(a: Offered, b: Offered): PieceHit[] | null {
    const { lander, limits } = this.of_;
    const mix = (u: number) => {
      const at = (name: "x" | "y" | "vx" | "vy" | "time") => a[name] + u * (b[name] - a[name]);
      return { x: at("x"), y: at("y"), vx: at("vx"), vy: at("vy"), time: at("time") };
    };
    const flownAt = (u: number) => {
      const start = mix(u);
      let turn = lander.turnFor(start, limits);
      if (!turn) return null;
      let landed = lander.land(start, this.air, turn, true);
      for (let round = 0; round < 3; round++) {
        turn = lander.corrected(start, turn, landed, limits);
        landed = lander.land(start, this.air, turn, true);
      }
      return { start, turn, landed };
    };
    const beyond = (u: number) => {
      const flown = flownAt(u);
      return flown ? lander.beyond(flown.landed) : Number.POSITIVE_INFINITY;
    };
    const u = a === b ? 0 : crossing(beyond, 0, 1, ON_TARGET);
    const flown = flownAt(u);
    if (!flown) return null;
    const { turn, landed, start } = flown;
    const turnBy = turn.velocity !== 0 ? "torn-sling" : Math.abs(turn.plane) < 1e-3 ? "none" : "debris";
    const { tornAt, station } = a;
    return [
      {
        of: this.piece,
        start,
        time: start.time,
        tornAt,
        station,
        turn,
        turnBy,
        landed,
        miss: lander.miss(landed),
      },
    ];
  }
}
