/**
 * The units a person may write and the ones we show, with exact factors (NIST SP 811, 2008, appendix B.8:
 * foot, inch, pound, gallon, pound-force and what follows from them are exact by definition).
 */

export type UnitSystem = "metric" | "us";

/**
 * What a number measures. `length` is of machine parts (m, or feet and inches), `distance` is on the field
 * (m, or decimal feet); `pressure` is the air's (hPa, or inHg), `gauge` a vessel's above it (bar, or psi).
 * `torque`, `stiffness` and `rate` are of what turns: N·m, N·m a radian, radians a second (shown as rev/min).
 */
export type Dimension =
  | "length"
  | "distance"
  | "mass"
  | "angle"
  | "speed"
  | "inertia"
  | "ratio"
  | "temperature"
  | "pressure"
  | "time"
  | "energy"
  | "area"
  | "force"
  | "volume"
  | "torque"
  | "stiffness"
  | "rate"
  | "gauge"
  | "stress"
  | "density";

/** Units of one kind convert into each other; `length` and `distance` are the same kind. */
export type Kind = Exclude<Dimension, "distance">;

export interface Unit {
  /** As written after a number. */
  symbol: string;
  /** SI value = (number + offset) · factor[0] / factor[1]; a fraction keeps decimal units exact. */
  factor: readonly [number, number];
  /** Degrees between the unit's zero and absolute zero, in the unit; temperatures only. */
  offset?: number;
  /** Lower case; "·" stands for any or no joint between factors, a digit may follow a caret. */
  names: readonly string[];
}

const unit = (
  symbol: string,
  factor: number | readonly [number, number],
  names: string,
  offset?: number,
): Unit => ({
  symbol,
  factor: typeof factor === "number" ? [factor, 1] : factor,
  names: names.split(", "),
  ...(offset === undefined ? {} : { offset }),
});

const POUND = 0.45359237; // kg
const POUND_FORCE = 4.4482216152605; // N = pound · 9.80665 m/s²
const POUND_FOOT = POUND_FORCE * 0.3048; // N·m
const DEGREE = Math.PI / 180; // rad

/** Every way of writing one twisting stiffness: each name of the torque with each name of the angle. */
const perAngle = (torques: string, angles: string) =>
  torques
    .split(", ")
    .flatMap((torque) => angles.split(", ").map((angle) => `${torque}/${angle}`))
    .join(", ");

const NEWTON_METRES = "n·m, newton·metres, newton·meters, newton·metre, newton·meter";
const POUND_FEET = "lbf·ft, lb·ft, lbs·ft, ft·lbf, ft·lb, ft·lbs, pound·feet, foot·pounds";
const RADIANS = "rad, radian, radians";
const DEGREES = "°, deg, degree, degrees";

export const UNITS = {
  length: [
    unit("m", 1, "m, metre, metres, meter, meters"),
    unit("cm", [1, 100], "cm, centimetre, centimetres, centimeter, centimeters"),
    unit("mm", [1, 1000], "mm, millimetre, millimetres, millimeter, millimeters"),
    unit("km", 1000, "km, kilometre, kilometres, kilometer, kilometers"),
    unit("ft", [3048, 10_000], "ft, foot, feet, '"),
    unit("in", [254, 10_000], 'in, inch, inches, "'),
    unit("yd", [9144, 10_000], "yd, yds, yard, yards"),
    unit("mi", [1_609_344, 1000], "mi, mile, miles"),
  ],
  mass: [
    unit("kg", 1, "kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes"),
    unit("g", [1, 1000], "g, gram, grams, gramme, grammes"),
    unit("t", 1000, "t, tonne, tonnes, metric ton, metric tons"),
    unit("lb", [45_359_237, 100_000_000], "lb, lbs, lbm, pound, pounds, #"),
    unit("oz", [45_359_237, 1_600_000_000], "oz, ounce, ounces"),
    unit("short tons", [90_718_474, 100_000], "short ton, short tons, us ton, us tons"),
    unit("long tons", [10_160_469_088, 10_000_000], "long ton, long tons, imperial ton, imperial tons"),
  ],
  angle: [
    unit("°", 1, "°, deg, degs, degree, degrees"),
    unit("′", [1, 60], "', arcmin, minute, minutes"),
    unit("″", [1, 3600], '", arcsec, second, seconds'),
    unit("rad", 180 / Math.PI, "rad, radian, radians"),
  ],
  speed: [
    unit("m/s", 1, "m/s, mps, metres per second, meters per second"),
    unit("km/h", [1000, 3600], "km/h, kmh, kph, kilometres per hour, kilometers per hour"),
    unit("mph", [44_704, 100_000], "mph, mi/h, miles per hour"),
    unit("ft/s", [3048, 10_000], "ft/s, fps, feet per second, foot per second"),
    unit("kn", [1852, 3600], "kn, kt, kts, knot, knots"),
  ],
  inertia: [
    unit("kg·m²", 1, "kg·m2"),
    unit("lb·ft²", POUND * 0.3048 * 0.3048, "lb·ft2, lbs·ft2"),
    unit("lb·in²", POUND * 0.0254 * 0.0254, "lb·in2, lbs·in2"),
  ],
  ratio: [unit("", 1, ""), unit("%", [1, 100], "%, percent, per cent")],
  temperature: [
    unit("°C", 1, "°c, c, deg c, degrees c, celsius, degrees celsius", 273.15),
    unit("°F", [5, 9], "°f, f, deg f, degrees f, fahrenheit, degrees fahrenheit", 459.67),
    unit("K", 1, "k, kelvin, kelvins", 0),
  ],
  pressure: [
    unit("hPa", 100, "hpa, hectopascal, hectopascals"),
    unit("mbar", 100, "mbar, mb, millibar, millibars"),
    unit("Pa", 1, "pa, pascal, pascals"),
    unit("kPa", 1000, "kpa, kilopascal, kilopascals"),
    unit("bar", 100_000, "bar, bars"),
    unit("psi", [POUND_FORCE, 0.0254 * 0.0254], "psi, lbf/in2"),
    unit("inHg", 3386.389, 'in·hg, "·hg'),
    unit("mmHg", 133.3224, "mm·hg"),
    unit("atm", 101_325, "atm"),
  ],
  time: [
    unit("s", 1, "s, sec, secs, second, seconds"),
    unit("ms", [1, 1000], "ms, millisecond, milliseconds"),
    unit("min", 60, "min, mins, minute, minutes"),
    unit("h", 3600, "h, hr, hrs, hour, hours"),
  ],
  energy: [
    unit("J", 1, "j, joule, joules, n·m"),
    unit("kJ", 1000, "kj, kilojoule, kilojoules"),
    unit("ft·lbf", POUND_FORCE * 0.3048, "ft·lbf, ft·lb, ft·lbs, foot·pounds, foot·pound"),
  ],
  area: [
    unit("m²", 1, "m2, sq m, square metres, square meters"),
    unit("ft²", 0.3048 * 0.3048, "ft2, sq ft, square feet"),
    unit("ha", 10_000, "ha, hectare, hectares"),
    unit("acres", 4046.8564224, "acre, acres, ac"),
  ],
  force: [
    unit("N", 1, "n, newton, newtons"),
    unit("kN", 1000, "kn, kilonewton, kilonewtons"),
    unit("lbf", POUND_FORCE, "lbf, pound·force, lb, lbs"),
    unit("kgf", 9.80665, "kgf, kilogram·force"),
  ],
  volume: [
    unit("L", [1, 1000], "l, litre, litres, liter, liters"),
    unit("m³", 1, "m3, cubic metres, cubic meters"),
    unit("gal", [3_785_411_784, 1_000_000_000_000], "gal, us gal, gallon, gallons"),
    unit("ft³", 0.3048 * 0.3048 * 0.3048, "ft3, cu ft, cubic feet"),
    unit("in³", 0.0254 * 0.0254 * 0.0254, "in3, cu in, cubic inches"),
  ],
  torque: [
    unit("N·m", 1, NEWTON_METRES),
    unit("kN·m", 1000, "kn·m"),
    unit("lbf·ft", POUND_FOOT, POUND_FEET),
    unit("lbf·in", POUND_FORCE * 0.0254, "lbf·in, lb·in, lbs·in, in·lbf, in·lb, in·lbs"),
  ],
  stiffness: [
    unit("N·m/rad", 1, perAngle(NEWTON_METRES, RADIANS)),
    unit("N·m/°", [1, DEGREE], perAngle(NEWTON_METRES, DEGREES)),
    unit("kN·m/rad", 1000, perAngle("kn·m", RADIANS)),
    unit("lbf·ft/rad", POUND_FOOT, perAngle(POUND_FEET, RADIANS)),
    unit("lbf·ft/°", [POUND_FOOT, DEGREE], perAngle(POUND_FEET, DEGREES)),
  ],
  rate: [
    unit("rev/min", [2 * Math.PI, 60], "rev/min, revs/min, rpm, r/min, revolutions/min, revolutions/minute"),
    unit("rad/s", 1, "rad/s, rads/s, radians/second"),
    unit("rev/s", 2 * Math.PI, "rev/s, revs/s, rps, hz, revolutions/second"),
    unit("°/s", DEGREE, "°/s, deg/s, degrees/second"),
  ],
  gauge: [
    unit("bar", 100_000, "bar, bars, barg, bar g"),
    unit("psi", [POUND_FORCE, 0.0254 * 0.0254], "psi, psig, psi g, lbf/in2"),
    unit("kPa", 1000, "kpa, kilopascal, kilopascals"),
    unit("MPa", 1_000_000, "mpa, megapascal, megapascals"),
    unit("Pa", 1, "pa, pascal, pascals"),
  ],
  stress: [
    unit("MPa", 1_000_000, "mpa, megapascal, megapascals, n/mm2"),
    unit("psi", [POUND_FORCE, 0.0254 * 0.0254], "psi, lbf/in2"),
    unit("ksi", [1000 * POUND_FORCE, 0.0254 * 0.0254], "ksi"),
    unit("Pa", 1, "pa, pascal, pascals, n/m2"),
  ],
  density: [
    unit("kg/m³", 1, "kg/m3"),
    unit("g/cm³", 1000, "g/cm3, g/cc, kg/l"),
    unit("lb/ft³", POUND / 0.3048 ** 3, "lb/ft3, lbs/ft3"),
  ],
} as const satisfies Record<Kind, readonly Unit[]>;

export const kindOf = (dimension: Dimension): Kind => (dimension === "distance" ? "length" : dimension);

/** A unit by the symbol we write it with. Throws RangeError on a symbol that the dimension does not have. */
export function unitOf(dimension: Dimension, symbol: string): Unit {
  const found = (UNITS[kindOf(dimension)] as readonly Unit[]).find((each) => each.symbol === symbol);
  if (!found) throw new RangeError(`There is no unit “${symbol}” of ${dimension}.`);
  return found;
}

/** Which unit a bare number is in and how a value is shown: the unit and the decimals it is read with. */
const SHOWN: Record<Dimension, Record<UnitSystem, { symbol: string; decimals: number }>> = {
  length: { metric: { symbol: "m", decimals: 3 }, us: { symbol: "ft", decimals: 2 } },
  distance: { metric: { symbol: "m", decimals: 1 }, us: { symbol: "ft", decimals: 1 } },
  mass: { metric: { symbol: "kg", decimals: 2 }, us: { symbol: "lb", decimals: 2 } },
  angle: { metric: { symbol: "°", decimals: 1 }, us: { symbol: "°", decimals: 1 } },
  speed: { metric: { symbol: "m/s", decimals: 1 }, us: { symbol: "mph", decimals: 1 } },
  inertia: { metric: { symbol: "kg·m²", decimals: 2 }, us: { symbol: "lb·ft²", decimals: 2 } },
  ratio: { metric: { symbol: "", decimals: 3 }, us: { symbol: "", decimals: 3 } },
  temperature: { metric: { symbol: "°C", decimals: 1 }, us: { symbol: "°F", decimals: 1 } },
  pressure: { metric: { symbol: "hPa", decimals: 1 }, us: { symbol: "inHg", decimals: 2 } },
  time: { metric: { symbol: "s", decimals: 2 }, us: { symbol: "s", decimals: 2 } },
  energy: { metric: { symbol: "J", decimals: 0 }, us: { symbol: "ft·lbf", decimals: 0 } },
  area: { metric: { symbol: "m²", decimals: 0 }, us: { symbol: "ft²", decimals: 0 } },
  force: { metric: { symbol: "N", decimals: 0 }, us: { symbol: "lbf", decimals: 0 } },
  volume: { metric: { symbol: "L", decimals: 1 }, us: { symbol: "gal", decimals: 2 } },
  torque: { metric: { symbol: "N·m", decimals: 1 }, us: { symbol: "lbf·ft", decimals: 1 } },
  stiffness: { metric: { symbol: "N·m/rad", decimals: 1 }, us: { symbol: "lbf·ft/rad", decimals: 1 } },
  rate: { metric: { symbol: "rev/min", decimals: 1 }, us: { symbol: "rev/min", decimals: 1 } },
  stress: { metric: { symbol: "MPa", decimals: 1 }, us: { symbol: "psi", decimals: 0 } },
  density: { metric: { symbol: "kg/m³", decimals: 0 }, us: { symbol: "lb/ft³", decimals: 1 } },
  gauge: { metric: { symbol: "bar", decimals: 2 }, us: { symbol: "psi", decimals: 1 } },
};

export function shownUnit(dimension: Dimension, system: UnitSystem): { unit: Unit; decimals: number } {
  const { symbol, decimals } = SHOWN[dimension][system];
  return { unit: unitOf(dimension, symbol), decimals };
}

/** A number in a unit, in SI (degrees for angles). */
export const toSI = (value: number, { factor, offset = 0 }: Unit): number =>
  ((value + offset) * factor[0]) / factor[1];

/** An SI value (degrees for angles) in a unit. */
export const fromSI = (value: number, { factor, offset = 0 }: Unit): number =>
  (value * factor[1]) / factor[0] - offset;

/** A difference or uncertainty in SI, in a unit: without the zero point. */
export const differenceFromSI = (value: number, { factor }: Unit): number => (value * factor[1]) / factor[0];
