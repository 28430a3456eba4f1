/**
 * A chamber that empties through a real valve into the barrel behind the projectile.
 *
 * The flow is that of IEC 60534-2-1 (sizing equations for compressible fluids, no fittings):
 * ṁ = Kv/36000 · Y·√(x·p₁·ρ₁), with x = (p₁ − p₂)/p₁, Y = 1 − x/(3·F_γ·x_T), choked from x = F_γ·x_T on, and
 * F_γ = γ/1.40 = 1 for air. Kv is in m³/h of water at 1 bar; ṁ in kg/s, p in Pa, ρ in kg/m³ (1/36000 = 0.1/3600
 * stands for the standard's N₆ and its units: from memory). The chamber's gas expands without taking up heat; what
 * flows brings its enthalpy into the barrel, whose gas is mixed and works on the projectile. What flows back is left
 * out: the barrel's gas only ever expands.
 */
import { DENSE_LENGTH, Dop853, evaluateDense, evaluateDenseAt, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import { adiabaticSpeed, adiabaticTime, type Drive, GAMMA } from "./chamber";

export interface Valve {
  /** Kv, m³/h of water at a difference of 1 bar (IEC 60534); 0.865 of the Cv in US gallons a minute at 1 psi. */
  flowCoefficient: number;
  /** The flow coefficient grows evenly to its full value in this time, s. */
  openingTime: number;
}

/** Critical ratio of pressure drops, of globe-like valves (IEC 60534-2-1, typical values: from memory). */
const CHOKE_RATIO = 0.7;
/** Kv in m³/h at 1 bar of water to kg/s at 1 Pa and 1 kg/m³. */
export const KV_UNITS = 36_000;
/** J/(kg·K), dry air, ISO 2533. */
const GAS_CONSTANT = 287.05287;
/** Room behind the projectile before it moves, as a share of the smaller of chamber and barrel; air at first. */
const DEAD_SHARE = 0.002;
/**
 * Where the pressures come this close, as a share of the chamber's first one, the flow falls evenly with their
 * difference instead of as its root, whose slope has no limit.
 */
const SOFT = 2e-3;
/**
 * A valve wider than this many times the flow of the fastest projectile is computed as if it were only so wide: that
 * costs less than half a percent of the speed, and a wider one is too stiff to follow.
 */
const WIDE = 10;
const ACCURACY = 1e-7;
const MOST_STEPS = 20_000;

/** Speed at the muzzle, m/s, and when it leaves, s from the trigger; null when it stays in the barrel. */
export interface Shot {
  speed: number;
  time: number;
}

// State: 0 share of the gas still in the chamber, 1 heat in the barrel's gas as a share of the chamber's first,
// 2 way, 3 speed, 4 time, 5 work done by the barrel's gas as a share like 1.
const SIZE = 6;

export function shootThroughValve(
  drive: Drive,
  valve: Valve,
  mass: number,
  temperature: number,
): Shot | null {
  return new ValveShot(drive, valve, mass, temperature).run();
}

/**
 * Mass flow of air through a valve, kg/s; none backwards.
 * @param flow Kv/36000: kg/s at 1 Pa and 1 kg/m³ without expansion
 * @param from, to pressures before and behind the valve, absolute, Pa
 * @param density before the valve, kg/m³
 * @param soft difference of pressure below which the flow falls evenly, Pa
 */
export function valveFlow(flow: number, from: number, to: number, density: number, soft = 0): number {
  if (to >= from) return 0;
  const x = Math.min(CHOKE_RATIO, 1 - to / from);
  const drop = x * from;
  const expansion = 1 - x / (3 * CHOKE_RATIO);
  return (flow * expansion * drop * Math.sqrt(density)) / Math.sqrt(drop + soft);
}

export class ValveShot {
  readonly solver = new Dop853(ACCURACY, ACCURACY);
  /** Room behind the projectile before it moves, m³. */
  readonly dead: number;
  /** Heat in the chamber's gas at first, J. */
  readonly stored: number;
  private readonly density: number;
  private readonly flow: number;
  private readonly longest: number;
  private readonly dense = new Float64Array(DENSE_LENGTH);

  constructor(
    private readonly drive: Drive,
    private readonly valve: Valve,
    private readonly mass: number,
    private readonly temperature: number,
  ) {
    const { volume, pressure, area, length } = drive;
    const speed = adiabaticSpeed(drive, mass);
    const sound = Math.sqrt(GAS_CONSTANT * temperature);
    this.dead = DEAD_SHARE * Math.min(volume, area * length);
    this.stored = (pressure * volume) / (GAMMA - 1);
    this.density = pressure / (GAS_CONSTANT * temperature);
    this.flow = Math.min(valve.flowCoefficient / KV_UNITS, (WIDE * area * speed) / sound);
    const emptying = volume / (this.flow * sound);
    this.longest = Math.max(adiabaticTime(drive, mass), valve.openingTime, emptying) / 10;
  }

  /** @param each is told time (s), way (m) and speed (m/s) in the barrel from the trigger to the muzzle */
  run(each?: (time: number, way: number, speed: number) => void): Shot | null {
    const { solver, drive, dense } = this;
    if (!(this.flow > 0) || !Number.isFinite(this.longest)) return null;
    solver.y.fill(0);
    solver.y[0] = 1;
    solver.y[1] = (drive.atmosphere * this.dead) / (GAMMA - 1) / this.stored;
    solver.begin(this.slope, SIZE, this.longest);
    each?.(0, 0, 0);
    for (let step = 0; step < MOST_STEPS; step++) {
      solver.attempt(this.longest);
      if (solver.yEnd[2] >= drive.length) {
        solver.dense(dense, 0);
        const left = (share: number) => drive.length - evaluateDenseAt(dense, 0, share, 2);
        const out = new Float64Array(MAX_SIZE);
        evaluateDense(dense, 0, fallThroughZero(left, 0, 1), SIZE, out);
        solver.y.set(out);
        each?.(out[4], out[2], out[3]);
        // A valve that lets next to nothing through drives it out at no speed that can be told.
        return Number.isFinite(out[3]) && Number.isFinite(out[4]) ? { speed: out[3], time: out[4] } : null;
      }
      solver.accept();
      each?.(solver.y[4], solver.y[2], solver.y[3]);
      if (this.stuck()) return null;
    }
    return null;
  }

  private chamberPressure(y: Float64Array): number {
    return this.drive.pressure * Math.max(0, y[0]) ** GAMMA;
  }

  private barrelPressure(y: Float64Array): number {
    return ((GAMMA - 1) * this.stored * y[1]) / (this.dead + this.drive.area * Math.max(0, y[2]));
  }

  /** N on the projectile while it slides forwards. */
  private force(barrel: number): number {
    const { area, atmosphere, friction } = this.drive;
    return area * (barrel - atmosphere) - friction;
  }

  /** It stands, the valve is open, and the pressures have nothing left to even out. */
  private stuck(): boolean {
    const { y } = this.solver;
    const barrel = this.barrelPressure(y);
    const even = this.chamberPressure(y) - barrel < SOFT * this.drive.pressure;
    return y[4] >= this.valve.openingTime && even && y[3] <= 0 && this.force(barrel) <= 0;
  }

  private readonly slope = (y: Float64Array, dy: Float64Array): void => {
    const { drive, valve, temperature, stored } = this;
    // Adiabatic: temperature goes with the share left to the power γ − 1, pressure with it to the power γ.
    const left = Math.max(0, y[0]);
    const cooled = left ** (GAMMA - 1);
    const chamber = drive.pressure * left * cooled;
    const barrel = this.barrelPressure(y);
    const open = valve.openingTime > 0 ? Math.min(1, y[4] / valve.openingTime) : 1;
    const density = this.density * left;
    const flow = open * valveFlow(this.flow, chamber, barrel, density, SOFT * drive.pressure);
    const enthalpy = (GAMMA / (GAMMA - 1)) * GAS_CONSTANT * temperature * cooled;
    const speed = Math.max(0, y[3]);
    const force = this.force(barrel);
    dy[0] = -flow / (this.density * drive.volume);
    dy[5] = (barrel * drive.area * speed) / stored;
    dy[1] = (flow * enthalpy) / stored - dy[5];
    dy[2] = speed;
    dy[3] = (y[3] <= 0 && force < 0 ? 0 : force) / this.mass;
    dy[4] = 1;
  };
}
