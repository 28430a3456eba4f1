/** Releases of the kinds that follow from formulas, written from the text alone, and the farthest of them. */
import type { HazardRequest, Machine } from "@/lib/throw";
import { PRESSURE } from "../request";

import { airlessTime, landsAt, type QuickAir } from "./flight";
import type { Airs, End, Farthest } from "./search";

interface Launch {
  x: number;
  y: number;
  vx: number;
  vy: number;
  /** What comes after it should have left: a hang-up. */
  past?: boolean;
  /** Of a level circle: where it leaves, along and across its own way. The throw may go in any direction. */
  aside?: { along: number; across: number };
}

type Of<Kind extends Machine["kind"]> = Extract<Machine, { kind: Kind }>;
const RADIAN = Math.PI / 180;
const GRAVITY = 9.80665;

/** Work of the draw force from rest to a draw, by trapezes between the measured points. */
function drawWork({ draw, drawForceScale }: Of<"tension">, to: number): number {
  const points = draw[0].length > 0 ? [{ length: 0, force: 0 }, ...draw] : draw;
  let work = 0;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    const end = Math.min(to, b.length);
    if (end <= a.length) break;
    const slope = (b.force - a.force) / (b.length - a.length);
    work += (end - a.length) * (a.force + (slope * (end - a.length)) / 2);
  }
  return work * drawForceScale;
}

/** Along the line of the launch there and back: what stays in its pouch swings through. */
function tensionLaunches(machine: Of<"tension">, mass: number): Launch[] {
  const length = machine.draw[machine.draw.length - 1].length;
  const cos = Math.cos(machine.launchAngle * RADIAN);
  const sin = Math.sin(machine.launchAngle * RADIAN);
  const stored = drawWork(machine, length);
  const out: Launch[] = [];
  for (let i = -120; i <= 120; i++) {
    const s = (length * i) / 120;
    const left = stored - drawWork(machine, Math.abs(s)) - mass * GRAVITY * sin * (s + length);
    if (left < 0) continue;
    const speed = Math.sqrt((2 * left) / (mass + machine.movingMass));
    const place = { x: s * cos, y: machine.launchHeight + s * sin };
    out.push({ ...place, vx: speed * cos, vy: speed * sin, past: i > 0 });
    out.push({ ...place, vx: -speed * cos, vy: -speed * sin, past: true });
  }
  return out;
}

function circleLaunches(machine: Of<"spinning-arm">): Launch[] {
  const { armLength: r, spinRate, launchHeight } = machine;
  const level = machine.plane === "horizontal";
  const sinTilt = Math.sin(machine.tilt * RADIAN);
  const cosTilt = Math.cos(machine.tilt * RADIAN);
  return Array.from({ length: 720 }, (_, i) => {
    const cos = Math.cos((i / 2) * RADIAN);
    const sin = Math.sin((i / 2) * RADIAN);
    const v = spinRate * r;
    if (!level) return { x: r * cos, y: launchHeight + r * sin, vx: v * sin, vy: -v * cos };
    // Turned about the x axis by the tilt: place r(cos, sin·cosTilt, sin·sinTilt), velocity its derivative.
    const way = Math.hypot(sin, cos * cosTilt);
    return {
      x: 0,
      y: launchHeight + r * sin * sinTilt,
      vx: v * way,
      vy: v * cos * sinTilt,
      aside: {
        along: (r * (-cos * sin + sin * cos * cosTilt ** 2)) / way,
        across: (r * cosTilt) / way,
      },
    };
  });
}

/** Adiabatic chamber, ideal valve: Rohrbach, Buresh, Madsen, Am. J. Phys. 80, 24 (2012). */
function cannonLaunches(machine: Of<"air-cannon">, mass: number, atmosphere: number): Launch[] {
  const { chamberVolume: volume, barrelLength, friction, muzzleHeight } = machine;
  const area = (Math.PI / 4) * machine.boreDiameter ** 2;
  const gamma = 1.4;
  const pressure = machine.chamberPressure + atmosphere;
  const work =
    (pressure * volume * (1 - (volume / (volume + area * barrelLength)) ** (gamma - 1))) / (gamma - 1);
  const net = work - area * barrelLength * atmosphere - barrelLength * friction;
  const speed = Math.sqrt((2 * Math.max(0, net)) / mass);
  const angle = machine.elevation * RADIAN;
  return [{ x: 0, y: muzzleHeight, vx: speed * Math.cos(angle), vy: speed * Math.sin(angle) }];
}

function measuredLaunches(machine: Of<"measured">, spread: number): Launch[] {
  return Array.from({ length: 361 }, (_, i) => {
    const angle = (machine.launchAngle + spread * (i / 180 - 1)) * RADIAN;
    const { releaseSpeed: v, launchHeight: y } = machine;
    return { x: 0, y, vx: v * Math.cos(angle), vy: v * Math.sin(angle) };
  });
}

/** Null for a kind that swings. */
export function launchesOf(machine: Machine, mass: number, request: HazardRequest): Launch[] | null {
  switch (machine.kind) {
    case "tension":
      return tensionLaunches(machine, mass);
    case "spinning-arm":
      return circleLaunches(machine);
    case "air-cannon":
      return cannonLaunches(machine, mass, request.air?.pressure ?? PRESSURE);
    case "measured":
      return measuredLaunches(machine, Math.min(180, request.tolerances?.launchAngle ?? 180));
    default:
      return null;
  }
}

export function farthestLaunch(launches: readonly Launch[], airs: Airs): Farthest {
  const most = (list: readonly QuickAir[], sign: 1 | -1, pastToo: boolean) => {
    let distance = 0;
    const [still] = list;
    const airless = launches.flatMap((launch) => {
      if (launch.past && !pastToo) return [];
      const { x, y, vx, vy, aside } = launch;
      const u = aside ? sign * vx : vx;
      return [{ launch, u, reach: sign * (x + u * airlessTime(still, x, y, u, vy)) }];
    });
    // Only what goes far without air can go far with it, unless wind or lift carry it.
    airless.sort((a, b) => b.reach - a.reach);
    const least = still.wind !== 0 || still.lift !== 0 ? 0.4 : 0.97;
    for (const { launch, u, reach } of airless) {
      if (reach < least * distance) break;
      const { x, y, vy, aside } = launch;
      for (const air of list) {
        const flight = sign * landsAt(air, x, y, u, vy);
        distance = Math.max(distance, aside ? Math.hypot(aside.along + flight, aside.across) : flight);
      }
    }
    return { distance, t: 0 };
  };
  const out: Partial<Farthest> = {};
  const ends: [End, QuickAir[], 1 | -1, boolean][] = [
    ["forward", airs.forward, 1, true],
    ["backward", airs.backward, -1, true],
    ["firstForward", airs.forward, 1, false],
    ["firstBackward", airs.backward, -1, false],
  ];
  for (const [end, list, sign, pastToo] of ends) out[end] = most(list, sign, pastToo);
  return out as Farthest;
}
