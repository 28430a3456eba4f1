/**
 * Z. J. Rohrbach, T. R. Buresh, M. J. Madsen, "Modeling the exit velocity of a compressed air cannon",
 * Am. J. Phys. 80, 24 (2012): adiabatic v² = (2/m)·[P₀V₀/(γ−1)·(1 − (V₀/(V₀+AL))^(γ−1)) − A·L·P_atm − L·f];
 * isothermal P₀V₀·ln(1 + AL/V₀) in the place of the first term. P₀ is absolute.
 * The valve: IEC 60534-2-1; Kv is the flow of water in m³/h at 1 bar (IEC 60534-1).
 */
import { describe, expect, it } from "vitest";
import { hazardRequestSchema, machineKind } from "@/lib/throw";
import { moved } from "@/lib/throw/case";
import {
  adiabaticSpeed,
  adiabaticTime,
  adiabaticWork,
  type Drive,
  isothermalSpeed,
  isothermalWork,
} from "@/lib/throw/machines/chamber";
import { KV_UNITS, shootThroughValve, ValveShot, valveFlow } from "@/lib/throw/machines/valve";

const GAMMA = 1.4;
const MASS = 0.8;
const WARM = 288.15;
const drive: Drive = {
  volume: 0.02,
  pressure: 451_325,
  area: 0.00866,
  length: 2.4,
  atmosphere: 101_325,
  friction: 30,
};

/** Simpson's rule over the length of the drive. */
function integral(f: (x: number) => number, length: number): number {
  const parts = 2000;
  let sum = f(0) + f(length);
  for (let i = 1; i < parts; i++) sum += (i % 2 ? 4 : 2) * f((length * i) / parts);
  return (sum * length) / (3 * parts);
}

describe("a chamber whose valve does not hinder", () => {
  it("gives the speeds of the published formulas", () => {
    const { volume, pressure, area, length, atmosphere, friction } = drive;
    const swept = area * length;
    const lost = swept * atmosphere + length * friction;
    const adiabatic =
      ((pressure * volume) / (GAMMA - 1)) * (1 - (volume / (volume + swept)) ** (GAMMA - 1)) - lost;
    const isothermal = pressure * volume * Math.log(1 + swept / volume) - lost;
    expect(adiabaticSpeed(drive, MASS)).toBeCloseTo(Math.sqrt((2 / MASS) * adiabatic), 9);
    expect(isothermalSpeed(drive, MASS)).toBeCloseTo(Math.sqrt((2 / MASS) * isothermal), 9);
  });

  it("does the work of a gas with pV^γ or pV constant, less the air's and the friction's", () => {
    const { volume, pressure, area, length, atmosphere, friction } = drive;
    const work = (exponent: number) =>
      integral(
        (x) => area * (pressure * (volume / (volume + area * x)) ** exponent - atmosphere) - friction,
        length,
      );
    expect(adiabaticWork(drive)).toBeCloseTo(work(GAMMA), 6);
    expect(isothermalWork(drive)).toBeCloseTo(work(1), 6);
  });

  it("drives with a constant force from a chamber without end", () => {
    const { pressure, area, length, atmosphere, friction } = drive;
    const endless = { ...drive, volume: 1e9 };
    const force = area * (pressure - atmosphere) - friction;
    expect(adiabaticWork(endless)).toBeCloseTo(force * length, 4);
    expect(isothermalWork(endless)).toBeCloseTo(force * length, 4);
    const acceleration = force / MASS;
    expect(adiabaticTime(endless, MASS)).toBeCloseTo(Math.sqrt((2 * length) / acceleration), 6);
  });

  it("does more when heat flows in, at every size of chamber, and nothing when it gives less than it costs", () => {
    for (let volume = 1e-6; volume < 1e3; volume *= 10) {
      const one = { ...drive, volume };
      expect(isothermalWork(one)).toBeGreaterThan(adiabaticWork(one));
    }
    const weak = { ...drive, pressure: 110_000 };
    expect(adiabaticWork(weak)).toBeLessThan(0);
    expect(adiabaticSpeed(weak, MASS)).toBe(0);
  });
});

describe("a real valve", () => {
  it("passes Kv of water at 1 bar, and two thirds of the root where it chokes", () => {
    const flow = 25 / KV_UNITS;
    // At a drop that is small beside the pressure, air flows as water does, by the root of its density.
    expect((valveFlow(flow, 1e8 + 1e5, 1e8, 1000) * 3600) / 1000 / 25).toBeCloseTo(1, 2);
    const choked = valveFlow(flow, 6e5, 1e5, 7);
    expect(choked).toBeCloseTo(((flow * 2) / 3) * Math.sqrt(0.7 * 6e5 * 7), 12);
    expect(valveFlow(flow, 6e5, 0, 7)).toBe(choked);
    expect(valveFlow(flow, 1e5, 6e5, 7)).toBe(0);
  });

  it("is slower than the ideal one, the more so the narrower and the slower it opens, and nears it when wide", () => {
    const ideal = adiabaticSpeed(drive, MASS);
    const speed = (flowCoefficient: number, openingTime: number) =>
      shootThroughValve(drive, { flowCoefficient, openingTime }, MASS, WARM)?.speed ?? 0;
    const narrowing = [1e5, 400, 100, 30, 10].map((kv) => speed(kv, 0.01));
    const slowing = [0, 0.01, 0.05, 0.2].map((time) => speed(90, time));
    for (const falling of [narrowing, slowing]) {
      falling.forEach((each, i) => {
        expect(each).toBeLessThan(falling[i - 1] ?? ideal);
        expect(each).toBeGreaterThan(0);
      });
    }
    expect(speed(1e5, 0)).toBeGreaterThan(0.99 * ideal);
    expect(speed(1e6, 0)).toBeLessThan(ideal);
  });

  it.each([
    [90, 0.03],
    [12, 0],
    [500, 0.002],
  ])("keeps the energy account: what chamber and barrel lose is work (Kv %d, %d s)", (kv, openingTime) => {
    const shot = new ValveShot(drive, { flowCoefficient: kv, openingTime }, MASS, WARM);
    const out = shot.run();
    const [left, heat, , speed, , work] = shot.solver.y;
    const before = 1 + (drive.atmosphere * shot.dead) / (GAMMA - 1) / shot.stored;
    expect((left ** GAMMA + heat + work) / before).toBeCloseTo(1, 6);
    const { area, length, atmosphere, friction } = drive;
    const kinetic = work * shot.stored - length * (area * atmosphere + friction);
    expect((0.5 * MASS * speed ** 2) / kinetic).toBeCloseTo(1, 5);
    expect(out?.speed).toBe(speed);
  });

  it("leaves the projectile in the barrel when the gas comes too slowly", () => {
    const tight = { ...drive, friction: 1200 };
    expect(adiabaticSpeed(tight, MASS)).toBeGreaterThan(0);
    expect(shootThroughValve(tight, { flowCoefficient: 0.5, openingTime: 5 }, MASS, WARM)).toBeNull();
  });
});

describe("the machine", () => {
  const { example, exampleProjectile } = machineKind("air-cannon");
  const releasesOf = (changes: object, air: object = {}) =>
    moved(
      hazardRequestSchema.parse({ machine: { ...example, ...changes }, projectile: exampleProjectile, air }),
    ).releases;

  it("counts every speed up to the ideal valve's for the worst, whatever valve was declared", () => {
    for (const valve of ["ideal", { flowCoefficient: 40, openingTime: 0.1 }]) {
      const { list, nominal } = releasesOf({ valve }, { pressure: 101_325 });
      const speeds = list.map(({ vx, vy }) => Math.hypot(vx, vy));
      const bore = Math.PI * (0.105 / 2) ** 2;
      const ideal = adiabaticSpeed({ ...drive, area: bore, friction: 30 }, exampleProjectile.mass);
      expect(speeds[0]).toBe(0);
      expect(Math.max(...speeds)).toBeCloseTo(ideal, 9);
      const meant = Math.hypot(nominal?.vx ?? 0, nominal?.vy ?? 0);
      if (valve === "ideal") expect(meant).toBeCloseTo(ideal, 9);
      else expect(meant).toBeLessThan(0.9 * ideal);
    }
  });

  it("is faster in thin air at the same gauge pressure", () => {
    const speed = (pressure: number) => {
      const { vx, vy } = releasesOf({ valve: "ideal" }, { pressure }).nominal ?? { vx: 0, vy: 0 };
      return Math.hypot(vx, vy);
    };
    expect(speed(80_000)).toBeGreaterThan(speed(101_325));
  });
});
