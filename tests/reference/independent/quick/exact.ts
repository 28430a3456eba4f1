/** The farthest throws of one exact machine of any kind, by the quick code and by formulas written from the text. */
import type { HazardRequest } from "@/lib/throw";
import { airDensity } from "../flight";
import type { ArmMachine } from "../mechanism";
import { PRESSURE, TEMPERATURE } from "../request";
import type { QuickAir } from "./flight";
import { farthestLaunch, launchesOf } from "./formulas";
import { type Airs, ENDS, type Far, type Farthest, searchInstants } from "./search";
import { QuickSwing, type Run } from "./swing";

export type Machine = HazardRequest["machine"];

/** What is thrown, with the coefficients of the worst case. */
export interface Load {
  mass: number;
  diameter: number;
  drag: number;
  lift: number;
}

export function airsOf(request: HazardRequest, load: Load): Airs {
  const { air, terrain } = request;
  const density = airDensity(air?.temperature ?? TEMPERATURE, air?.pressure ?? PRESSURE);
  const area = (Math.PI / 4) * load.diameter ** 2;
  const perMass = (density * area) / (2 * load.mass);
  const wind = air?.wind;
  const gust = Math.max(wind?.speed ?? 0, wind?.gust ?? 0);
  const one = (sign: number, lift: number): QuickAir => ({
    gravity: 9.80665,
    drag: perMass * load.drag,
    lift: perMass * lift,
    wind: sign * gust,
    anemometer: wind?.height ?? 10,
    below: terrain?.below ?? 0,
    fall: Math.tan(((terrain?.slope ?? 0) * Math.PI) / 180),
  });
  const both = (sign: number) =>
    load.lift > 0 ? [one(sign, load.lift), one(sign, -load.lift)] : [one(sign, 0)];
  return { forward: both(1), backward: both(-1) };
}

/** The swings of an arm machine: held, and rolling too where it has wheels. */
export function runsOf(machine: Machine, mass: number, request: HazardRequest, resolution = 120): Run[] {
  const { base } = machine as { base?: unknown };
  const frames = base === undefined || base === "fixed" ? [false] : [false, true];
  return frames.map((rolling) =>
    new QuickSwing(machine as unknown as ArmMachine, mass, {
      rolling,
      resolution,
      horizon: request.horizon,
    }).run(),
  );
}

export function farthestOf(machine: Machine, load: Load, request: HazardRequest, resolution = 120): Farthest {
  const airs = airsOf(request, load);
  const launches = launchesOf(machine, load.mass, request);
  if (launches) return farthestLaunch(launches, airs);
  const found = runsOf(machine, load.mass, request, resolution).map((run) => searchInstants(run, airs));
  const most = (end: keyof Farthest): Far =>
    found.map((one) => one[end]).reduce((a, b) => (b.distance > a.distance ? b : a));
  return Object.fromEntries(ENDS.map((end) => [end, most(end)])) as unknown as Farthest;
}
