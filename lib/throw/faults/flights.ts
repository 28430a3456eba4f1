/**
 * Where pieces of a machine go: of all the instants and places at which a piece may come free, the ones that fly
 * farthest forward, backward and aside. They are chosen without air, which hardly slows what is heavy, and then
 * flown with it.
 */
import type { Piece, Reach } from "../contracts/faults";
import type { Policy } from "../contracts/policy";
import { type Air, Flight } from "../flight/flight";
import { projectileAir } from "../flight/projectile";
import { runOut } from "../flight/runout";
import { Scout } from "../flight/scout";
import type { WorstAirs } from "../worst/scan";

/** kg/m³: a piece is flown as compact as steel, which nothing of a machine outdoes. Common practice, no source. */
const COMPACT = 7850;

/** A piece that has come free. */
export interface Launch {
  x: number;
  y: number;
  vx: number;
  vy: number;
  time: number | null;
  tornAt: number | null;
  station: number | null;
}

/** When a piece comes free, s from the trigger, and when the sling had torn before. */
export interface When {
  time: number;
  tornAt: number | null;
}

/** What all candidates of a search share. */
export interface PieceOf {
  name: string;
  /** kg; null flies without drag. */
  mass: number | null;
  /** Diameter and drag of something that is not a piece of the machine. */
  like?: { diameter: number; drag: number; lift: number };
}

/**
 * m/s: pieces are flown no faster. Nothing that gas drives outruns gas that expands into nothing, five times the
 * speed of sound; and what the least of masses would reach by energy alone is nothing that is built.
 */
const FASTEST = 1700;

const WAYS = ["forward", "backward", "side"] as const;

/** Diameter of a ball of steel of this mass, m. */
export const compactDiameter = (mass: number): number => Math.cbrt((6 * mass) / (Math.PI * COMPACT));

export class PieceFlights {
  private readonly flight = new Flight();
  private readonly scout = new Scout();
  private readonly sinTurn: number;
  private readonly cosTurn: number;
  /** Of the irregular body that every broken piece is. */
  private readonly drag: number;

  constructor(
    private readonly airs: WorstAirs,
    private readonly policy: Pick<Policy, "ground"> & { angles: Pick<Policy["angles"], "tornSling"> },
  ) {
    const turn = (policy.angles.tornSling * Math.PI) / 180;
    this.sinTurn = Math.sin(turn);
    this.cosTurn = Math.cos(turn);
    this.drag = projectileAir({ mass: 1, diameter: 1, shape: "irregular" }).lowDrag;
  }

  search(of: PieceOf): PieceSearch {
    return new PieceSearch(this, of);
  }

  get ground(): Air {
    return this.airs.forward[0];
  }

  /** The airs that carry a piece a way, with its own mass and drag. */
  private airsFor(of: PieceOf, way: Piece["way"]): Air[] {
    const { airs } = this;
    const base = way === "backward" ? airs.backward[0] : airs.forward[0];
    const mass = of.mass ?? 1;
    const diameter = of.like?.diameter ?? compactDiameter(mass);
    const drag = of.mass === null ? 0 : (of.like?.drag ?? this.drag);
    const windZ = way === "side" ? Math.abs(base.windX) : 0;
    const windX = way === "side" ? 0 : base.windX;
    const lift = of.like?.lift ?? 0;
    const body = {
      ...base,
      mass,
      diameter,
      area: (Math.PI / 4) * diameter ** 2,
      drag,
      windX,
      windZ,
      sideLift: 0,
    };
    return lift > 0 ? [lift, -lift].map((signed) => ({ ...body, lift: signed })) : [{ ...body, lift: 0 }];
  }

  /** Flies one piece the way it goes farthest, out of the plane for `side`. */
  fly(of: PieceOf, launch: Launch, way: Piece["way"]): Piece {
    const { flight, policy } = this;
    const { x, y, vx, vy } = launch;
    const speed = Math.hypot(vx, vy);
    const aside = way === "side";
    const flown = speed > FASTEST ? FASTEST / speed : 1;
    const along = flown * (aside ? this.cosTurn : 1);
    let best: Piece | null = null;
    for (const air of this.airsFor(of, way)) {
      const impact = flight.fly(air, x, y, vx * along, vy * along, aside ? flown * speed * this.sinTurn : 0);
      const distance = aside ? Math.abs(impact.z) : way === "forward" ? impact.x : -impact.x;
      if (best && distance <= best.distance) continue;
      const total = Math.hypot(impact.vx, impact.vy, impact.vz);
      const falls = aside ? Math.abs(air.cross) : way === "forward" ? air.fall : -air.fall;
      // What goes the other way does not roll back.
      const towards = aside ? Math.abs(impact.vz) : (way === "forward" ? 1 : -1) * impact.vx;
      best = {
        name: of.name,
        mass: of.mass,
        way,
        time: launch.time,
        tornAt: launch.tornAt,
        station: launch.station,
        speed,
        angle: (Math.atan2(vy, vx) * 180) / Math.PI,
        height: y,
        distance: Math.max(0, distance),
        runOut:
          distance > 0 && towards > 0 ? runOut(towards, impact.vy, policy.ground, air.gravity, falls) : 0,
        energy: of.mass === null ? null : 0.5 * of.mass * total * total,
      };
    }
    if (!best) throw new TypeError("no air to fly in");
    return best;
  }

  /** The farthest flight each way of a piece that may leave in any direction at a speed. */
  flyAnywhere(of: PieceOf, speed: number, height: number, station: number | null): Piece[] {
    const [forward, backward] = (["forward", "backward"] as const).map((way) => {
      const sign = way === "forward" ? 1 : -1;
      const [air] = this.airsFor(of, way);
      const flown = Math.min(speed, FASTEST);
      let best = Math.PI / 4;
      let distance = Number.NEGATIVE_INFINITY;
      const look = (from: number, to: number, by: number) => {
        for (let degrees = from; degrees <= to; degrees += by) {
          const angle = (degrees * Math.PI) / 180;
          const [vx, vy] = [sign * flown * Math.cos(angle), flown * Math.sin(angle)];
          const { x } = this.scout.fly(air, 0, height, vx, vy);
          if (sign * x <= distance) continue;
          distance = sign * x;
          best = angle;
        }
      };
      look(-10, 90, 4);
      const about = (best * 180) / Math.PI;
      look(about - 3.5, about + 3.5, 0.5);
      const [vx, vy] = [sign * speed * Math.cos(best), speed * Math.sin(best)];
      return this.fly(of, { x: 0, y: height, vx, vy, time: null, tornAt: null, station }, way);
    });
    // Across the bearing it goes as far as the farther of both along it.
    const across = forward.distance >= backward.distance ? forward : backward;
    return [forward, backward, { ...across, way: "side" }];
  }
}

/** The candidates of one piece: keeps the best each way. */
export class PieceSearch {
  private readonly scores = new Float64Array(WAYS.length).fill(Number.NEGATIVE_INFINITY);
  private readonly best: (Launch | null)[] = [null, null, null];
  private readonly flown: (Piece | null)[] = [null, null, null];
  private readonly below: number;
  private readonly fall: number;
  private readonly gravity: number;

  constructor(
    private readonly flights: PieceFlights,
    private readonly of: PieceOf,
  ) {
    const { below, fall, gravity } = flights.ground;
    this.below = below;
    this.fall = fall;
    this.gravity = gravity;
  }

  /** Offers a candidate; its time is read only when it is among the best. */
  offer(x: number, y: number, vx: number, vy: number, when: When, station: number | null): void {
    const { below, fall, gravity, best } = this;
    const above = y + below + fall * x;
    const rise = vy + fall * vx;
    let time = 0;
    if (above > 0 || rise > 0) {
      const discriminant = rise * rise + 2 * gravity * above;
      if (discriminant > 0) time = (rise + Math.sqrt(discriminant)) / gravity;
    }
    const landing = x + vx * time;
    const aside = Math.sqrt(vx * vx + vy * vy) * time;
    const scores = this.scores;
    if (landing <= scores[0] && -landing <= scores[1] && aside <= scores[2]) return;
    const launch = { x, y, vx, vy, time: when.time, tornAt: when.tornAt, station };
    for (let i = 0; i < 3; i++) {
      const score = i === 0 ? landing : i === 1 ? -landing : aside;
      if (score <= scores[i]) continue;
      scores[i] = score;
      best[i] = launch;
    }
  }

  /** Flies a candidate one way at once: for light pieces, whose order air may change. */
  fly(launch: Launch, way: Piece["way"]): void {
    const piece = this.flights.fly(this.of, launch, way);
    const i = WAYS.indexOf(way);
    const best = this.flown[i];
    if (!best || piece.distance > best.distance) this.flown[i] = piece;
  }

  /** The farthest flight each way; none for a way that nothing goes. */
  pieces(): Piece[] {
    return WAYS.flatMap((way, i) => {
      const launch = this.best[i];
      const flown = launch ? this.flights.fly(this.of, launch, way) : this.flown[i];
      return flown && flown.distance > 0 ? [flown] : [];
    });
  }
}

/** Of several pieces' flights the farthest each way. */
export function farthest(pieces: readonly Piece[]): Piece[] {
  return WAYS.flatMap((way) => {
    let best: Piece | null = null;
    for (const piece of pieces) {
      if (piece.way !== way) continue;
      if (!best || piece.distance + piece.runOut > best.distance + best.runOut) best = piece;
    }
    return best ? [best] : [];
  });
}

/** Farthest first impact, and farthest rest, of pieces each way, m. */
export function reachOf(pieces: readonly Piece[]): { reach: Reach; rest: Reach } {
  const reach: Reach = { forward: 0, backward: 0, side: 0 };
  const rest: Reach = { forward: 0, backward: 0, side: 0 };
  for (const { way, distance, runOut: rolled } of pieces) {
    reach[way] = Math.max(reach[way], distance);
    rest[way] = Math.max(rest[way], distance + rolled);
  }
  return { reach, rest };
}

/** The same reach towards every azimuth. */
export const circle = (radius: number): Reach => ({ forward: radius, backward: radius, side: radius });
