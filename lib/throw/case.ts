/** One exact machine worked out: its releases, its worst throws, its ceiling. */
import { airProperties } from "../earth";
import type { HazardRequest, Nominal } from "./contracts";
import { type Air, Flight } from "./flight/flight";
import { projectileAir } from "./flight/projectile";
import type { Conditions } from "./machines/kind";
import { machineKind } from "./machines/registry";
import type { Instant, Releases } from "./release";
import { gravityOf, isSwung, setupOf } from "./setup";
import { SwingReleases } from "./swing/releases";
import { swing } from "./swing/swing";
import type { Trace } from "./swing/trace";
import { type Ceiling, ceilingOf, swingCeiling } from "./worst/ceiling";
import { type Scan, scanWorst, type WorstAirs, worstAirs } from "./worst/scan";

export interface Case {
  releases: Releases;
  /** Null for a measured machine. */
  trace: Trace | null;
  scan: Scan;
  ceiling: Ceiling;
  airs: WorstAirs;
}

/** @param request its machine and projectile taken as exact, but for the uncertainties of a measured speed */
export function workOut(request: HazardRequest): Case {
  const { machine, projectile } = request;
  const { gust } = windOf(request);
  const shape = projectileAir(projectile);
  const airs = worstAirs(stillAir(request), shape.lowDrag, shape.lift, gust);
  const helping = [...airs.forward, ...airs.backward];
  if (isSwung(machine)) {
    const setup = setupOf(request);
    const trace = swing(setup);
    const releases = new SwingReleases(trace, (machine.releaseAngle * Math.PI) / 180);
    return { releases, trace, scan: scanWorst(releases, airs), ceiling: swingCeiling(setup, helping), airs };
  }
  const { motion } = machineKind(machine.kind);
  if (motion.by !== "formula") throw new TypeError("unreachable");
  const conditions = conditionsOf(request);
  const releases = motion.releases(machine, conditions);
  const ceiling = ceilingOf(motion.ceiling(machine, conditions), conditions.gravity, helping);
  return { releases, trace: null, scan: scanWorst(releases, airs), ceiling, airs };
}

/** What the formulas of a machine without a swing are given. */
function conditionsOf(request: HazardRequest): Conditions {
  return {
    projectile: request.projectile,
    gravity: gravityOf(request),
    pressure: airProperties(request.air ?? {}).pressure,
    tolerances: request.tolerances ?? {},
  };
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

/** The throw as meant in the mean wind; its path is appended to `path` when given. */
export function nominalThrow(
  request: HazardRequest,
  instant: Instant | null,
  path?: number[],
): Nominal | null {
  if (!instant) return null;
  const { speed, direction } = windOf(request);
  const air: Air = {
    ...stillAir(request),
    drag: projectileAir(request.projectile).nominalDrag,
    windX: speed * Math.cos(direction),
    windZ: speed * Math.sin(direction),
  };
  const impact = new Flight().fly(air, instant.x, instant.y, instant.vx, instant.vy, 0, path);
  const level = Math.hypot(impact.vx, impact.vz);
  return {
    distance: impact.x,
    drift: impact.z,
    releaseTime: instant.time,
    releaseSpeed: Math.hypot(instant.vx, instant.vy),
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
  if (!trace || Number.isNaN(trace.liftOff)) {
    return "The projectile never leaves the trough within the horizon.";
  }
  const angle = isSwung(request.machine) ? request.machine.releaseAngle : 0;
  return `The loop never slips: the sling's angle to the arm does not fall to ${angle}° before the swing ends. The projectile hangs up or strikes the ground.`;
}
