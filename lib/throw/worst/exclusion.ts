/**
 * Where people may not be: a reach for every azimuth. Every release instant is flown in space, once for each
 * angle by which its cause may turn it out of the plane of the throw: margin × first impact + the run-out of
 * that very throw, at the azimuth where it lands. Thrown pieces and the swept circle come on top.
 */
import type { Case } from "../case";
import type { Barrier } from "../contracts/barrier";
import type { Policy } from "../contracts/policy";
import type { Cause } from "../contracts/sheet";
import { type Air, dragCoefficientOf, windGrowthAt } from "../flight/flight";
import { firstHop, runOut } from "../flight/runout";
import { SpaceScout } from "../flight/space-scout";
import { type Instant, turnBetween } from "../release";
import { BarredZone, type Stops } from "./barriers";

export interface Exclusion {
  forward: number;
  backward: number;
  side: number;
  reach: number[];
  /** Without barriers, where there are any. */
  open?: number[];
  causes: { forward: Cause; backward: Cause; side: Cause };
}

const NO_THROW = {
  releaseTime: null,
  deflection: null,
  afterSlack: false,
  hangUp: false,
  stop: "none",
} as const;

/** How far pieces of a machine can go, m from the firing point. */
export interface PieceReach {
  forward: number;
  backward: number;
  side: number;
}

/** Steps from the plane of the throw to the widest angle of a torn sling. */
const DEFLECTIONS = 9;
/** Neighbouring instants are flown when the velocity has turned by this since the last one flown, rad. */
const TURN = 0.05;
const DEGREES = 360;
const RADIAN = 180 / Math.PI;
/** Wind may carry a landing to another azimuth than the airless one, degrees: so far around it is looked before a throw is passed over. */
const NEARBY = 8;
/**
 * What instants between those flown may reach beyond them: of 40 machines flown instant by instant the farthest was
 * 0.5 % beyond the zone without it.
 */
const BETWEEN = 1.005;
/** A gust slantwise makes no throw reach the edge that stays below this share of it in gusts along and across. */
const NEAR_EDGE = 0.75;
/** Launches within this count as one direction, degrees. */
const SAME_DIRECTION = 1;
/** What comes this near to a reach made it. */
const ROUNDING = 1 + 1e-9;
/** Notches between neighbouring landings narrower than twice this are filled, degrees. */
const FILL = 3;

/** One landing: azimuth in degrees clockwise from the bearing, and the reach kept clear for it, m. */
interface Landing {
  azimuth: number;
  reach: number;
  instant: Instant;
  /** How far it was turned out of its plane, rad. */
  deflection: number;
  /** Where barriers stop it; null without any. */
  stops: Stops | null;
}

/** What raised a degree of the zone last. */
type Raiser = Landing | { azimuth: number; fault: string };

export class ExclusionBuilder {
  private readonly raw = new Float64Array(DEGREES);
  private readonly raisers: (Raiser | null)[] = new Array(DEGREES).fill(null);
  private readonly scout: SpaceScout;
  private readonly widest: number;
  /** Degrees by which aim and lean turn every throw. */
  private readonly smear: number;
  private readonly barred: BarredZone | null;
  /** Instants that may come near the zone's edge in the gusts along and across the bearing: only those are tried slantwise. */
  private readonly near = new Set<Instant>();

  /** @param leanAcross degrees by which the machine may lean to a side, its tolerance included */
  constructor(
    private readonly policy: Policy,
    leanAcross: number,
    barriers: readonly Barrier[] = [],
  ) {
    this.smear = Math.min(180, Math.ceil(policy.angles.aim + policy.angles.lean));
    this.barred = barriers.length > 0 ? new BarredZone(barriers, this.smear) : null;
    this.scout = new SpaceScout(this.barred !== null);
    this.widest = Math.min(180, policy.angles.tornSling + leanAcross) / RADIAN;
  }

  /**
   * Adds every throw of a worked-out machine; those that hang up only when the policy counts them.
   * @param admitted what the search of the box may have missed: every reach is multiplied by it
   */
  add({ releases, scan, airs }: Case, admitted: number): void {
    const { policy } = this;
    const stretch = admitted * BETWEEN;
    const pass = policy.hangUp ? scan : scan.firstPass;
    const refined = [pass.forward, pass.backward].flatMap((found) => (found ? [found.instant] : []));
    const straight = new Set([...airs.forward, ...airs.backward, ...airs.across]);
    if (releases.allRound) {
      for (const air of straight)
        this.addAllRound([...releases.list, ...refined], air, releases.allRound.aside, stretch);
      return;
    }
    const thin = thinned(releases.list);
    // Behind a barrier a lesser throw that passes over it may reach farther than a greater one that does not.
    const flown = this.barred ? new Set(thin) : notOutdone(thin, airs.forward[0].gravity);
    this.near.clear();
    for (const air of straight) {
      for (const instant of refined) this.addInstants([instant], air, stretch);
      this.addInstants(thin, air, stretch, flown);
    }
    for (const air of airs.slantwise) this.addInstants(thin, air, stretch, this.barred ? flown : this.near);
  }

  /** Raises the zone for pieces: so far ahead and behind within the debris angle of that way, so far all round. */
  addPieces({ forward, backward, side }: PieceReach, fault: string): void {
    const half = this.policy.angles.debris;
    for (let i = 0; i < DEGREES; i++) {
      const off = Math.min(i, DEGREES - i);
      const ahead = off <= half ? forward : 0;
      const behind = DEGREES / 2 - off <= half ? backward : 0;
      this.raise(i, Math.max(ahead, behind, side), { azimuth: i, fault });
    }
  }

  private addAllRound(instants: readonly Instant[], air: Air, aside: number, stretch: number): void {
    let farthest: Landing | null = null;
    for (const instant of instants) {
      const landing = this.land(instant, air, 0, aside, stretch);
      if (this.barred) for (let i = 0; i < DEGREES; i++) this.raise(i, landing.reach, landing, landing);
      if (!farthest || landing.reach > farthest.reach) farthest = landing;
    }
    if (!farthest) return;
    for (let i = 0; i < DEGREES; i++) this.raise(i, farthest.reach, farthest, farthest);
  }

  /** @param between the landings between which it lies; none for what no barrier stops */
  private raise(degree: number, reach: number, raiser: Raiser, ...between: readonly Landing[]): void {
    this.barred?.raise(degree, reach, ...between.flatMap(({ stops }) => stops ?? []));
    if (!(reach > this.raw[degree])) return;
    this.raw[degree] = reach;
    this.raisers[degree] = raiser;
  }

  /** @param flown those of the instants that can matter; all of them without it */
  private addInstants(
    instants: readonly Instant[],
    air: Air,
    stretch: number,
    flown?: ReadonlySet<Instant>,
  ): void {
    const { policy, widest } = this;
    let previous: (Landing | null)[] = [];
    let segment = -1;
    for (const instant of instants) {
      if (instant.hangUp && !policy.hangUp) continue;
      if (flown && !flown.has(instant)) {
        previous = [];
        continue;
      }
      const landings: (Landing | null)[] = [];
      for (let i = 0; i <= DEFLECTIONS; i++) {
        const deflection = (widest * i) / DEFLECTIONS;
        const promise = this.promise(instant, air, deflection, stretch);
        if (promise >= NEAR_EDGE) this.near.add(instant);
        landings.push(promise < 1 ? null : this.land(instant, air, deflection, 0, stretch));
      }
      landings.forEach((landing, i) => {
        if (!landing) return;
        this.span(landing, landings[i - 1] ?? landing);
        const before = instant.segment === segment ? previous[i] : null;
        if (before) this.span(landing, before);
      });
      previous = landings;
      segment = instant.segment;
    }
  }

  /** The most that an instant can reach at a deflection, as a share of what the zone reaches there already. */
  private promise({ x, y, vx, vy }: Instant, air: Air, deflection: number, stretch: number): number {
    const { policy } = this;
    if (y <= 0 && vy <= 0) return (Math.abs(x) * policy.margin * stretch) / this.leastNear(x < 0 ? 180 : 0);
    const { gravity } = air;
    const speed = Math.hypot(vx, vy);
    const lift =
      (0.5 * air.density * air.area * (Math.abs(air.lift) + air.sideLift) * speed * speed) /
      (air.mass * gravity);
    if (lift > 0.1) return Number.POSITIVE_INFINITY;
    const ux = vx * Math.cos(deflection);
    const uy = vy * Math.cos(deflection);
    const uz = speed * Math.sin(deflection);
    // Only ground that falls away counts, so that neither a throw ahead nor one aside is taken too short.
    const climb = uy + Math.max(0, air.fall * ux) + Math.max(0, air.cross * uz);
    const height = Math.max(0, y) + air.below + Math.abs(air.fall * x);
    const time = (climb + Math.sqrt(climb * climb + 2 * gravity * height)) / gravity;
    const wind = this.windAloft(air, speed);
    const carried = Math.min(1.5 * wind * time, helped(air, speed, wind) * time * time);
    const lx = x + ux * time;
    const lz = uz * time;
    const reach = Math.hypot(lx, lz) * (1 + 4 * lift) + carried;
    const level = Math.hypot(ux, uz) + 0.2 * wind;
    const down = Math.sqrt(uy * uy + 2 * gravity * height);
    const roll = runOut(level, down, policy.ground, gravity, Math.max(0, air.fall, -air.fall, air.cross));
    return (stretch * (policy.margin * reach + roll)) / this.leastNear(Math.atan2(lz, lx) * RADIAN);
  }

  /** The wind about as high as a throw at this speed can go, m/s. */
  private windAloft(air: Air, speed: number): number {
    const wind = Math.hypot(air.windX, air.windZ);
    return wind > 0 ? wind * windGrowthAt(air, Math.max(10, (speed * speed) / air.gravity)) : 0;
  }

  /** The least that the zone reaches already wherever a throw towards an azimuth may come. */
  private leastNear(azimuth: number): number {
    // Behind barriers aim and lean count from the start.
    const [zone, around] = this.barred ? [this.barred.reach, NEARBY + this.smear] : [this.raw, NEARBY];
    const middle = Math.round(azimuth);
    let least = Number.POSITIVE_INFINITY;
    for (let i = -around; i <= around; i++) {
      const at = (((middle + i) % DEGREES) + DEGREES) % DEGREES;
      least = Math.min(least, Math.max(zone[at], zone[(DEGREES - at) % DEGREES]));
    }
    return least;
  }

  /** The reach by azimuth: both sides alike, smeared by aim and lean, never below the minimum. */
  finish(sweptRadius: number): Exclusion {
    const { policy, raw } = this;
    const mirrored = filled(raw.map((reach, i) => Math.max(reach, raw[(DEGREES - i) % DEGREES])));
    const { smear } = this;
    const barred = this.barred && filled(this.barred.reach);
    const least = policy.margin * sweptRadius;
    const open: number[] = [];
    const reach: number[] = [];
    for (let i = 0; i < DEGREES; i++) {
      const kept = Math.max(least, minimumAt(i, policy));
      let most = kept;
      for (let turn = -smear; turn <= smear; turn++) {
        most = Math.max(most, mirrored[(i + turn + DEGREES) % DEGREES]);
      }
      open.push(most);
      reach.push(barred ? Math.min(most, Math.max(kept, barred[i])) : most);
    }
    const across = reach.map((r, i) => r * Math.abs(Math.sin(i / RADIAN)));
    const widest = across.indexOf(Math.max(...across));
    const causeAt = (degree: number): Cause => {
      const cause = this.causeOf(degree, smear + FILL, open[degree], least);
      return open[degree] > reach[degree] * ROUNDING ? { ...cause, by: "barrier" } : cause;
    };
    return {
      forward: reach[0],
      backward: reach[180],
      side: across[widest],
      reach,
      ...(barred && { open }),
      causes: { forward: causeAt(0), backward: causeAt(180), side: causeAt(widest) },
    };
  }

  /** What made the reach at a degree: the raiser of the degree nearby that came the nearest to it. */
  private causeOf(degree: number, around: number, reach: number, swept: number): Cause {
    const own = { ...NO_THROW, azimuth: degree, fault: null };
    let raiser: Raiser | null = null;
    let most = 0;
    for (let turn = -around; turn <= around; turn++) {
      const at = (degree + turn + DEGREES) % DEGREES;
      for (const side of [at, (DEGREES - at) % DEGREES]) {
        if (this.raw[side] > most && this.raw[side] <= reach * ROUNDING) {
          most = this.raw[side];
          raiser = this.raisers[side];
        }
      }
    }
    if (!raiser || most * ROUNDING < reach)
      return { ...own, by: swept * ROUNDING >= reach ? "sweep" : "minimum" };
    const { azimuth } = raiser;
    if ("fault" in raiser) return { ...own, by: "piece", azimuth, fault: raiser.fault };
    const { time, afterSlack, hangUp, stop } = raiser.instant;
    const deflection = raiser.deflection * RADIAN;
    return { ...own, by: "throw", azimuth, releaseTime: time, deflection, afterSlack, hangUp, stop };
  }

  /** Flies one instant turned out of the plane by `deflection` (rad), to the right. */
  private land(instant: Instant, air: Air, deflection: number, aside: number, stretch: number): Landing {
    const { margin, ground } = this.policy;
    const cos = Math.cos(deflection);
    const speed = Math.hypot(instant.vx, instant.vy);
    const impact = this.scout.fly(
      air,
      instant.x,
      instant.y,
      instant.vx * cos,
      instant.vy * cos,
      speed * Math.sin(deflection),
    );
    const distance = Math.hypot(impact.x, impact.z, aside);
    const level = Math.hypot(impact.vx, impact.vz);
    const fall = level > 0 ? (air.fall * impact.vx + air.cross * impact.vz) / level : 0;
    const azimuth = (Math.atan2(impact.z, impact.x) * RADIAN + DEGREES) % DEGREES;
    const hop = firstHop(impact.vy, ground, air.gravity);
    return {
      instant,
      deflection,
      azimuth,
      reach: stretch * (margin * distance + runOut(level, impact.vy, ground, air.gravity, fall)),
      stops: this.barred?.stopsOf(this.scout.path, margin * stretch, hop) ?? null,
    };
  }

  /**
   * Raises every degree between two neighbouring landings, and those next to them, to the farthest between theirs
   * within half a degree of it: the reach at a whole degree holds for all that round to it.
   */
  private span(a: Landing, b: Landing): void {
    let turn = b.azimuth - a.azimuth;
    if (turn > 180) turn -= DEGREES;
    if (turn < -180) turn += DEGREES;
    // A throw that passes overhead changes sides at once: no landing lies between.
    if (Math.abs(turn) > 120) turn = 0;
    const low = turn < 0 ? a.azimuth + turn : a.azimuth;
    const width = Math.abs(turn);
    const [first, last] =
      turn < 0 ? [b.reach, a.reach] : [a.reach, turn === 0 ? Math.max(a.reach, b.reach) : b.reach];
    const share = (azimuth: number) => (width > 0 ? Math.min(1, Math.max(0, (azimuth - low) / width)) : 1);
    const between = (azimuth: number) => first + share(azimuth) * (last - first);
    for (let degree = Math.floor(low); degree <= Math.ceil(low + width); degree++) {
      const index = ((degree % DEGREES) + DEGREES) % DEGREES;
      const reach = Math.max(between(degree - 0.5), between(degree + 0.5));
      this.raise(index, reach, a.reach > b.reach ? a : b, a, b);
    }
  }
}

/**
 * Those that no other outdoes: a projectile that whirls on passes the same directions again and again. One in the same
 * direction with more energy that starts no less far ahead goes as far at least.
 */
function notOutdone(instants: readonly Instant[], gravity: number): Set<Instant> {
  const energy = ({ vx, vy, y }: Instant) => 0.5 * (vx * vx + vy * vy) + gravity * y;
  const kept = new Map<string, Instant[]>();
  for (const instant of [...instants].sort((a, b) => energy(b) - energy(a))) {
    const bucket = Math.round((Math.atan2(instant.vy, instant.vx) * RADIAN) / SAME_DIRECTION);
    // A hang-up must not stand in for a throw that counts without them.
    const key = `${bucket} ${instant.hangUp}`;
    const same = kept.get(key) ?? [];
    if (same.some((by) => Math.sign(instant.vx) * (instant.x - by.x) <= 0)) continue;
    kept.set(key, [...same, instant]);
  }
  return new Set([...kept.values()].flat());
}

/** Half of what wind can add to a projectile's acceleration, with a fifth to spare for the longer flight, m/s². */
function helped(air: Air, speed: number, wind: number): number {
  const drag = (0.5 * air.density * air.area * dragCoefficientOf(air, speed + wind)) / air.mass;
  return 0.6 * drag * ((speed + wind) ** 2 - speed ** 2);
}

/** Notches narrower than 2 × FILL degrees raised to their edges; nothing is ever lowered. */
function filled(reach: Float64Array): Float64Array {
  const over = (of: Float64Array, pick: (...values: number[]) => number) =>
    of.map((_, i) => {
      let value = of[i];
      for (let turn = -FILL; turn <= FILL; turn++) value = pick(value, of[(i + turn + DEGREES) % DEGREES]);
      return value;
    });
  return over(over(reach, Math.max), Math.min);
}

/** The ends of every segment and of its first pass, and in between what the turning of the velocity asks for. */
function thinned(instants: readonly Instant[]): Instant[] {
  const out: Instant[] = [];
  let last: Instant | null = null;
  instants.forEach((instant, i) => {
    const next = instants[i + 1];
    const end = !next || next.hangUp !== instant.hangUp || last?.segment !== instant.segment;
    const turned = last ? turnBetween(last, instant) : Number.POSITIVE_INFINITY;
    const faster = last ? Math.abs(Math.hypot(instant.vx, instant.vy) / Math.hypot(last.vx, last.vy) - 1) : 1;
    if (end || turned > TURN || faster > TURN / 2) {
      out.push(instant);
      last = instant;
    }
  });
  return out;
}

/** The policy's least distance at an azimuth: ahead, behind, or to the side. */
function minimumAt(degree: number, policy: Policy): number {
  const off = Math.min(degree, DEGREES - degree);
  if (off <= 45) return policy.minimum.forward;
  return off >= 135 ? policy.minimum.backward : policy.minimum.side;
}
