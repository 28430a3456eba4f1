/** One exact machine worked out: its releases, its worst throws, its ceiling. */
import { airProperties } from "../earth";
import { conditionsOf } from "./conditions";
import type { HazardRequest, Nominal } from "./contracts";
import { type Air, Flight } from "./flight/flight";
import { projectileAir } from "./flight/projectile";
import type { EnergyBound } from "./machines/kind";
import { machineKind } from "./machines/registry";
import type { Instant, Releases } from "./release";
import type { Frame } from "./setup";
import { gravityOf, isSwung, setupOf } from "./setup";
import { SwingReleases } from "./swing/releases";
import { swing } from "./swing/swing";
import type { Trace } from "./swing/trace";
import { type Ceiling, ceilingOf, swingBound } from "./worst/ceiling";
import { type Scan, scanWorst, type WorstAirs, worstAirs } from "./worst/scan";

export interface Case {
  releases: Releases;
  /** Null for a measured machine. */
  trace: Trace | null;
  scan: Scan;
  ceiling: Ceiling;
  airs: WorstAirs;
}

/**
 * @param request its machine and projectile taken as exact
 * @param accuracy relative error of the integration, when it need not be the least
 * @throws CannotThrow
 */
export function workOut(request: HazardRequest, frame: Frame = "held", accuracy?: number): Case {
  const airs = airsOf(request);
  const { releases, trace } = moved(request, frame, accuracy ? { accuracy, coarse: 1 } : undefined);
  return { releases, trace, scan: scanWorst(releases, airs), ceiling: ceilingFor(request, airs), airs };
}

/**
 * The machine moved from the trigger on: the instants at which the projectile may come free, and its swing.
 * @param quick relative error of the integration, and how many times sparser the instants may be
 */
export function moved(
  request: HazardRequest,
  frame: Frame = "held",
  quick?: { accuracy: number; coarse: number },
): { releases: Releases; trace: Trace | null } {
  const { machine } = request;
  if (isSwung(machine)) {
    const trace = swing(setupOf(request, frame), quick?.accuracy);
    return { releases: new SwingReleases(trace, quick?.coarse), trace };
  }
  const { motion } = machineKind(machine.kind);
  if (motion.by !== "formula") throw new TypeError("unreachable");
  return { releases: motion.releases(machine, conditionsOf(request)), trace: null };
}

/**
 * The airs of the worst case for the request's projectile. Throws aside are flown to the right alone and count to the
 * left too, so the ground falls away to the right in them, to whichever side it truly falls.
 */
export function airsOf(request: HazardRequest): WorstAirs {
  const { lowDrag, lift } = projectileAir(request.projectile);
  const still = stillAir(request);
  return worstAirs({ ...still, cross: Math.abs(still.cross) }, lowDrag, lift, windOf(request).gust);
}

/** What energy forbids one exact machine to exceed. */
export function ceilingFor(request: HazardRequest, airs = airsOf(request)): Ceiling {
  return ceilingOf(boundOf(request), [...airs.forward, ...airs.backward]);
}

/** The most that energy allows the projectile of one exact machine. */
function boundOf(request: HazardRequest): EnergyBound {
  if (isSwung(request.machine)) return swingBound(setupOf(request));
  const { motion } = machineKind(request.machine.kind);
  if (motion.by !== "formula") throw new TypeError("unreachable");
  return motion.ceiling(request.machine, conditionsOf(request));
}

/** Wind at the anemometer, m/s; the gust is at least the mean. */
function windOf(request: HazardRequest) {
  const wind = request.air?.wind;
  const speed = wind?.speed ?? 0;
  return {
    speed,
    gust: Math.max(speed, wind?.gust ?? 0),
    direction: ((wind?.direction ?? 0) * Math.PI) / 180,
  };
}

/** The projectile in the day's air with no wind and no lift, drag not yet chosen. */
function stillAir(request: HazardRequest): Air {
  const { projectile } = request;
  const properties = airProperties(request.air ?? {});
  return {
    gravity: gravityOf(request),
    density: properties.density,
    viscosity: properties.viscosity,
    mass: projectile.mass,
    diameter: projectile.diameter,
    area: projectileAir(projectile).area,
    drag: 0,
    lift: 0,
    sideLift: 0,
    windX: 0,
    windZ: 0,
    anemometerHeight: request.air?.wind?.height ?? 10,
    below: request.terrain?.below ?? 0,
    fall: Math.tan(((request.terrain?.slope ?? 0) * Math.PI) / 180),
    cross: Math.tan(((request.terrain?.crossSlope ?? 0) * Math.PI) / 180),
  };
}

/** The projectile in the mean wind, as it is meant to fly. */
export function nominalAir(request: HazardRequest): Air {
  const { speed, direction } = windOf(request);
  return {
    ...stillAir(request),
    drag: projectileAir(request.projectile).nominalDrag,
    windX: speed * Math.cos(direction),
    windZ: speed * Math.sin(direction),
  };
}

/** The throw as meant in the mean wind; its path is appended to `path` when given. */
export function nominalThrow(
  request: HazardRequest,
  instant: Instant | null,
  path?: number[],
): Nominal | null {
  if (!instant) return null;
  const air = nominalAir(request);
  const impact = new Flight().fly(air, instant.x, instant.y, instant.vx, instant.vy, instant.vz ?? 0, path);
  const level = Math.hypot(impact.vx, impact.vz);
  return {
    distance: impact.x,
    drift: impact.z + (instant.z ?? 0),
    releaseTime: instant.time,
    releaseSpeed: Math.hypot(instant.vx, instant.vy, instant.vz ?? 0),
    launchAngle: (Math.atan2(instant.vy, instant.vx) * 180) / Math.PI,
    releaseHeight: instant.y,
    flightTime: impact.time,
    apex: impact.apex,
    impactSpeed: Math.hypot(level, impact.vy),
    impactAngle: (Math.atan2(-impact.vy, level) * 180) / Math.PI,
    impactEnergy: 0.5 * request.projectile.mass * (level * level + impact.vy * impact.vy),
  };
}

/** Why a machine has no nominal throw. */
export function nominalReasonOf(
  request: HazardRequest,
  releases: Releases,
  trace: Trace | null,
): string | null {
  if (releases.nominal) return null;
  if (releases.nominalReason) return releases.nominalReason;
  if (!trace || Number.isNaN(trace.liftOff)) {
    return "The projectile never leaves the trough within the horizon.";
  }
  const angle = isSwung(request.machine) ? request.machine.releaseAngle : 0;
  return `The loop never slips: the sling's angle to the arm does not fall to ${angle}° before the swing ends. The projectile hangs up or strikes the ground.`;
}
