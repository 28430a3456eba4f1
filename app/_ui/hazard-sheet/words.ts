/** How a hazard sheet writes its numbers: units, and no more digits than they deserve. */
import { type Figure, type Machine, machineKind } from "@/lib/throw";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";
import { wholeDistance } from "../kept-distance";

/** A computed distance: tenths of a metre below 100 m, else whole metres; whole feet. */
export const distanceText = (metres: number, system: UnitSystem): string =>
  formatQuantity(metres, "distance", system, {
    digits: system === "metric" && Math.abs(metres) < 100 ? 1 : 0,
  });

/** A distance that people must keep: never rounded down. */
export const keptDistanceText = (metres: number, system: UnitSystem): string =>
  wholeDistance(metres, system, "up");

export const otherSystem = (system: UnitSystem): UnitSystem => (system === "us" ? "metric" : "us");

/** An instant after the trigger. */
export const instantText = (seconds: number): string => `${seconds.toFixed(3)} s`;

export const speedText = (speed: number, system: UnitSystem): string =>
  formatQuantity(speed, "speed", system, { digits: 1 });

export const angleText = (degrees: number): string =>
  formatQuantity(degrees, "angle", "metric", { digits: 0 });

export const heightText = (metres: number, system: UnitSystem): string =>
  formatQuantity(metres, "distance", system, { digits: 1 });

/** A place along the arm. */
export const stationText = (metres: number, system: UnitSystem): string =>
  Math.abs(metres) < 0.05
    ? "at the pivot"
    : `${formatQuantity(metres, "distance", system, { digits: 1 })} from the pivot`;

/** Two significant digits from 1000 on; whole numbers before. */
export function energyText(joules: number, system: UnitSystem): string {
  const shown = system === "us" ? joules / 1.3558179483314004 : joules;
  const digits = shown < 1000 ? 0 : 2 - Math.ceil(Math.log10(shown));
  return formatQuantity(joules, "energy", system, { digits });
}

/** A load or an energy, known to some per cent: three digits at most. */
export const loadText = (value: number, dimension: Dimension, system: UnitSystem): string =>
  formatQuantity(value, dimension, system, { uncertainty: 0.03 * Math.abs(value) });

const INCH = 0.0254; // m

/** How stiff a sling was taken for its jerks, and from where that was taken. */
export function slingStiffnessText(
  { stiffness, stiffnessFrom }: { stiffness: number; stiffnessFrom: string },
  system: UnitSystem,
): string {
  const each =
    system === "us"
      ? `${loadText(stiffness * INCH, "force", system)} for each inch`
      : `${loadText(stiffness * 0.01, "force", system)} for each centimetre`;
  return `Jerks of the slack sling: with one that pulls ${each} of stretch. ${stiffnessFrom}`;
}

/** A value within its ±: as many digits as that leaves. */
export const withinText = (value: number, spread: number, dimension: Dimension, system: UnitSystem): string =>
  formatQuantity(value, dimension, system, {
    // A wide range says little of one value in it: 5 % of that is fine enough.
    uncertainty: Math.min(spread, Math.max(0.05 * Math.abs(value), spread / 3)),
  });

/** 0.002 as "0.2 %", in one digit or two. */
export const percentText = (share: number): string => `${Number((share * 100).toPrecision(2))} %`;

const figureUnits: Record<Exclude<Figure["unit"], "s" | "ratio">, Dimension> = {
  J: "energy",
  N: "force",
  N·m: "torque",
  m: "distance",
  "m/s": "speed",
  kg: "mass",
  "rad/s": "rate",
  Pa: "stress",
};

/** One number of a failure. */
export function figureText(value: number, unit: Figure["unit"], system: UnitSystem): string {
  if (unit === "s") return instantText(value);
  if (unit === "ratio") return String(Number(value.toPrecision(2)));
  if (unit === "m")
    return formatQuantity(value, "distance", system, { digits: Math.abs(value) < 10 ? 2 : 0 });
  return loadText(value, figureUnits[unit], system);
}

export const kindTitle = (kind: string): string => {
  try {
    return machineKind(kind as Machine["kind"]).title;
  } catch {
    return kind;
  }
};

const others: Record<string, { label: string; dimension: Dimension }> = {
  mass: { label: "Projectile mass", dimension: "mass" },
  diameter: { label: "Projectile diameter", dimension: "length" },
  lift: { label: "Lift coefficient", dimension: "ratio" },
  drag: { label: "Drag coefficient", dimension: "ratio" },
  "drag.low": { label: "Drag coefficient", dimension: "ratio" },
  gust: { label: "Gust", dimension: "speed" },
};

/** Units of the engine's sentences, with what makes SI of them. */
const AMOUNTS: Record<string, readonly [Dimension, number]> = {
  m: ["distance", 1],
  mm: ["length", 1e-3],
  "m/s": ["speed", 1],
  kg: ["mass", 1],
  "kg/m³": ["density", 1],
  bar: ["pressure", 1e5],
  J: ["energy", 1],
  N: ["force", 1],
};
const DEGREES = /([-−]?\d+(?:\.\d+)?) °C/g;
const AMOUNT = /(\d+(?:\.(\d+))?) (m\/s|kg\/m³|mm|m|kg|bar|J|N)(?![\w/²³])/g;

/**
 * The engine's sentences name parameters as the API does, and are in SI: a reader gets the names of the form, and
 * the units asked for.
 */
export function inWords(text: string, kind: string, system: UnitSystem): string {
  const named = text.replace(/\b[a-z]+(?:[A-Z][a-z]*)+\b/g, (name) => {
    const { label } = parameterWords(kind, name);
    return label === name ? name : lowerFirst(label);
  });
  if (system === "metric") return named;
  const warmed = named.replace(DEGREES, (_, celsius: string) =>
    formatQuantity(Number(celsius.replace("−", "-")) + 273.15, "temperature", system, { digits: 0 }),
  );
  return warmed.replace(AMOUNT, (_, number: string, decimals: string | undefined, unit: string) => {
    const [usual, factor] = AMOUNTS[unit] as readonly [Dimension, number];
    // To the millimetre it is of a part, not of the field.
    const dimension = unit === "m" && (decimals?.length ?? 0) >= 3 ? "length" : usual;
    const uncertainty = 0.5 * factor * 10 ** -(decimals?.length ?? 0);
    return formatQuantity(Number(number) * factor, dimension, system, { uncertainty });
  });
}

export const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);

/** A parameter as people call it, and in which dimension its value is. */
export function parameterWords(kind: string, name: string): { label: string; dimension: Dimension } {
  try {
    const found = machineKind(kind as Machine["kind"]).parameters.find((each) => each.name === name);
    if (found) return found;
  } catch {
    // A sheet of a kind this version does not know: its parameters keep their names.
  }
  return others[name.replace(/^projectile\./, "")] ?? { label: name, dimension: "ratio" };
}

/** Level of the headings inside a sheet: one below the sheet's own. */
export type Heading = "h2" | "h3";
