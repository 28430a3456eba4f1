/**
 * What the gas of a chamber can do to a body that it drives: the two limits of
 * Z. J. Rohrbach, T. R. Buresh, M. J. Madsen, "Modeling the exit velocity of a compressed air cannon",
 * Am. J. Phys. 80, 24 (2012): the gas has no inertia, the valve no resistance, friction is a constant force, gravity
 * along the way is neglected.
 */

/** Ratio of the specific heats of air, as a gas of two-atom molecules. */
export const GAMMA = 1.4;

/** A chamber that drives a body of some area along some length against the air and friction. SI. */
export interface Drive {
  /** m³ */
  volume: number;
  /** In the chamber at first, absolute, Pa. */
  pressure: number;
  /** That the pressure drives: of the bore, or of a cap, m². */
  area: number;
  /** On which it drives, m. */
  length: number;
  /** Of the air around, Pa. */
  atmosphere: number;
  /** N */
  friction: number;
}

/** Work of the gas that expands without taking up heat, less what the air and friction take, J. */
export function adiabaticWork(drive: Drive): number {
  const { volume, pressure, area, length } = drive;
  // 1 − (V/(V+AL))^(γ−1), exact for the smallest expansions too.
  const fall = -Math.expm1(-(GAMMA - 1) * Math.log1p((area * length) / volume));
  return ((pressure * volume) / (GAMMA - 1)) * fall - taken(drive);
}

/** The same of gas kept at its temperature: no chamber can do more. */
export function isothermalWork(drive: Drive): number {
  const { volume, pressure, area, length } = drive;
  return pressure * volume * Math.log1p((area * length) / volume) - taken(drive);
}

const taken = ({ area, length, atmosphere, friction }: Drive) => length * (area * atmosphere + friction);

const speedOf = (work: number, mass: number) => (work > 0 ? Math.sqrt((2 * work) / mass) : 0);

/** m/s of a body of `mass` (kg) at the end of the drive; 0 where the gas does not bring it there. */
export const adiabaticSpeed = (drive: Drive, mass: number): number => speedOf(adiabaticWork(drive), mass);

/** As `adiabaticSpeed`, of gas kept at its temperature. */
export const isothermalSpeed = (drive: Drive, mass: number): number => speedOf(isothermalWork(drive), mass);

/**
 * Time that the ideal valve takes to bring a body to the end of the drive, s; infinite where it does not.
 * @param each is told time (s), way (m) and speed (m/s) on the way
 */
export function adiabaticTime(
  drive: Drive,
  mass: number,
  each?: (time: number, way: number, speed: number) => void,
): number {
  const parts = 64;
  let time = 0;
  let before = 0;
  each?.(0, 0, 0);
  for (let i = 1; i <= parts; i++) {
    const length = drive.length * (i / parts) ** 2;
    const middle = drive.length * ((i - 0.5) / parts) ** 2;
    time += (length - before) / adiabaticSpeed({ ...drive, length: middle }, mass);
    before = length;
    each?.(time, length, adiabaticSpeed({ ...drive, length }, mass));
  }
  return time;
}
