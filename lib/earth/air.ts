/**
 * The air: the standard atmosphere (ISO 2533:1975, the layer below 11 km), corrected for the day's station
 * pressure and temperature, and how the wind grows with height.
 */

/** Sea-level values and constants of ISO 2533:1975. */
const SEA_LEVEL_TEMPERATURE = 288.15; // K
const SEA_LEVEL_PRESSURE = 101_325; // Pa
const LAPSE_RATE = -0.0065; // K per metre of geopotential height
const GAS_CONSTANT = 287.05287; // J/(kg·K), of dry air
const STANDARD_GRAVITY = 9.80665; // m/s²
const TOP_OF_LAYER = 11_000; // m
const BOTTOM_OF_TABLE = -5000; // m

/** Sutherland's law with the constants of ISO 2533: β in kg/(m·s·√K), S in K. */
const SUTHERLAND_BETA = 1.458e-6;
const SUTHERLAND_TEMPERATURE = 110.4;

/** Exponent of the wind profile over open ground: common practice, no source. */
export const WIND_EXPONENT = 1 / 7;

/** What is known of the day. Whatever is absent is standard. */
export interface AirConditions {
  /** Kelvin; values from −90 to 60 are read as degrees Celsius (see `kelvin`). */
  temperature?: number | undefined;
  /** Station pressure, Pa, not reduced to sea level; 0 means no air at all. */
  pressure?: number | undefined;
  /** Height above sea level, m; serves for the pressure only when that is absent. */
  altitude?: number | undefined;
}

export interface AirProperties {
  /** K */
  temperature: number;
  /** Pa */
  pressure: number;
  /** kg/m³ */
  density: number;
  /** Dynamic viscosity, Pa·s */
  viscosity: number;
}

/** A temperature as declared, in kelvin. No field on Earth has −90 to 60 K, so such a value is in °C. */
export function kelvin(temperature: number): number {
  if (!Number.isFinite(temperature)) throw new RangeError("The temperature must be a number.");
  const absolute = temperature >= -90 && temperature <= 60 ? temperature + 273.15 : temperature;
  if (absolute <= 0) throw new RangeError("The temperature must be above absolute zero.");
  return absolute;
}

/**
 * Temperature (K) and pressure (Pa) of the standard atmosphere at a geopotential height in metres. Below
 * 3 km the height above sea level may stand for it: they differ by less than 1.5 m, 15 Pa.
 */
export function standardAtmosphere(height: number): { temperature: number; pressure: number } {
  if (!(height >= BOTTOM_OF_TABLE && height <= TOP_OF_LAYER)) {
    throw new RangeError(
      `The altitude must lie between ${BOTTOM_OF_TABLE} and ${TOP_OF_LAYER} m above sea level.`,
    );
  }
  const temperature = SEA_LEVEL_TEMPERATURE + LAPSE_RATE * height;
  const exponent = -STANDARD_GRAVITY / (GAS_CONSTANT * LAPSE_RATE);
  return { temperature, pressure: SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** exponent };
}

/**
 * The air's temperature, pressure, density (ideal gas, dry) and viscosity. The measured pressure stands
 * before the altitude; a missing temperature is the standard one at the altitude (at sea level without one).
 * Humid air is thinner than this by at most 1 % on a hot day. Throws RangeError on values out of range.
 */
export function airProperties(conditions: AirConditions = {}): AirProperties {
  const standard = standardAtmosphere(conditions.altitude ?? 0);
  const temperature =
    conditions.temperature === undefined ? standard.temperature : kelvin(conditions.temperature);
  const pressure = conditions.pressure ?? standard.pressure;
  if (!(pressure >= 0 && Number.isFinite(pressure))) {
    throw new RangeError("The pressure must be zero or more pascals.");
  }
  return {
    temperature,
    pressure,
    density: pressure / (GAS_CONSTANT * temperature),
    viscosity: (SUTHERLAND_BETA * temperature ** 1.5) / (temperature + SUTHERLAND_TEMPERATURE),
  };
}

/**
 * Wind speed at a height above the ground (m) from the speed at the anemometer's height (m): power law with
 * exponent 1/7 over open ground. No wind at or below the ground.
 */
export function windAt(height: number, speed: number, referenceHeight: number): number {
  if (!(referenceHeight > 0)) throw new RangeError("The anemometer's height must be above zero.");
  return height > 0 ? speed * (height / referenceHeight) ** WIND_EXPONENT : 0;
}
