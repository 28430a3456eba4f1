/**
 * Where people may not be: a reach for every azimuth. Every release instant is flown in space, once for each
 * angle by which its cause may turn it out of the plane of the throw: margin × first impact + the run-out of
 * that very throw, at the azimuth where it lands.
 */
import type { Case } from "../case";
import type { Policy } from "../contracts/policy";
import { type Air, Flight, ZONE_ACCURACY } from "../flight/flight";
import { runOut } from "../flight/runout";
import { type Instant, turnBetween } from "../release";
import type { WorstAirs } from "./scan";

export interface Exclusion {
  forward: number;
  backward: number;
  side: number;
  reach: number[];
}

/** Steps from the plane of the throw to the widest angle of a torn sling. */
const DEFLECTIONS = 9;
/** Neighbouring instants are flown when the velocity has turned by this since the last one flown, rad. */
const TURN = 0.1;
const DEGREES = 360;
const RADIAN = 180 / Math.PI;

/** One landing: azimuth in degrees clockwise from the bearing, and the reach kept clear for it, m. */
interface Landing {
  azimuth: number;
  reach: number;
}

export class ExclusionBuilder {
  private readonly raw = new Float64Array(DEGREES);
  private readonly flight = new Flight(ZONE_ACCURACY);

  constructor(
    private readonly policy: Policy,
    private readonly airs: WorstAirs,
  ) {}

  /** Adds every throw of a worked-out machine; those that hang up only when the policy counts them. */
  add({ releases, scan }: Case): void {
    const { policy } = this;
    const pass = policy.hangUp ? scan : scan.firstPass;
    const refined = [pass.forward, pass.backward].flatMap((found) => (found ? [found.instant] : []));
    this.addInstants(thinned(releases.list));
    for (const instant of refined) this.addInstants([instant]);
  }

  private addInstants(instants: readonly Instant[]): void {
    const { policy } = this;
    const torn = policy.angles.tornSling / RADIAN;
    for (const air of new Set([...this.airs.forward, ...this.airs.backward, ...this.airs.across])) {
      let previous: Landing[] | null = null;
      let segment = -1;
      for (const instant of instants) {
        if (instant.hangUp && !policy.hangUp) continue;
        const landings: Landing[] = [];
        for (let i = 0; i <= DEFLECTIONS; i++) {
          landings.push(this.land(instant, air, (torn * i) / DEFLECTIONS));
        }
        for (let i = 0; i < landings.length; i++) {
          this.span(landings[i], landings[Math.max(0, i - 1)]);
          if (previous && instant.segment === segment) this.span(landings[i], previous[i]);
        }
        previous = landings;
        segment = instant.segment;
      }
    }
  }

  /** The reach by azimuth: both sides alike, smeared by aim and lean, never below the minimum. */
  finish(sweptRadius: number): Exclusion {
    const { policy, raw } = this;
    const mirrored = raw.map((reach, i) => Math.max(reach, raw[(DEGREES - i) % DEGREES]));
    const smear = Math.min(180, Math.ceil(policy.angles.aim + policy.angles.lean));
    const least = policy.margin * sweptRadius;
    const reach: number[] = [];
    for (let i = 0; i < DEGREES; i++) {
      let most = Math.max(least, minimumAt(i, policy));
      for (let turn = -smear; turn <= smear; turn++) {
        most = Math.max(most, mirrored[(i + turn + DEGREES) % DEGREES]);
      }
      reach.push(most);
    }
    return {
      forward: reach[0],
      backward: reach[180],
      side: Math.max(...reach.map((r, i) => r * Math.abs(Math.sin(i / RADIAN)))),
      reach,
    };
  }

  /** Flies one instant turned out of the plane by `deflection` (rad), to the right. */
  private land(instant: Instant, air: Air, deflection: number): Landing {
    const cos = Math.cos(deflection);
    const speed = Math.hypot(instant.vx, instant.vy);
    const impact = this.flight.fly(
      air,
      instant.x,
      instant.y,
      instant.vx * cos,
      instant.vy * cos,
      speed * Math.sin(deflection),
    );
    const distance = Math.hypot(impact.x, impact.z);
    const level = Math.hypot(impact.vx, impact.vz);
    return {
      azimuth: (Math.atan2(impact.z, impact.x) * RADIAN + DEGREES) % DEGREES,
      reach: this.policy.margin * distance + runOut(level, impact.vy, this.policy.ground, air.gravity),
    };
  }

  /**
   * Raises every degree between two neighbouring landings to the reach between theirs, and the whole degrees next
   * to them to the farther.
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
    for (let degree = Math.floor(low); degree <= Math.ceil(low + width); degree++) {
      const share = width > 0 ? Math.min(1, Math.max(0, (degree - low) / width)) : 1;
      const index = ((degree % DEGREES) + DEGREES) % DEGREES;
      this.raw[index] = Math.max(this.raw[index], first + share * (last - first));
    }
  }
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
