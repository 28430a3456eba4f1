/** Understanding what a person typed into a field for a quantity. Never guesses and never drops a part. */
import { formatPlain } from "./format";
import { readNumber } from "./number";
import {
  type Dimension,
  type Kind,
  kindOf,
  shownUnit,
  toSI,
  UNITS,
  type Unit,
  type UnitSystem,
} from "./table";

export type ParsedQuantity =
  | { ok: true; value: number }
  | {
      ok: false;
      reason: "empty" | "not-a-number" | "unknown-unit" | "ambiguous";
      /** A sentence that says what to do. */
      message: string;
      /** What an ambiguous text may mean, in SI (degrees for angles). */
      choices?: { label: string; value: number }[];
    };

type Refusal = Extract<ParsedQuantity, { ok: false }>;

interface Term {
  values: readonly number[];
  /** Several where one name has several meanings (a ton); none for a bare number. */
  units: readonly Unit[];
}

const KIND_NAMES: Record<Kind, string> = {
  length: "length",
  mass: "mass",
  angle: "angle",
  speed: "speed",
  inertia: "moment of inertia",
  ratio: "plain number",
  temperature: "temperature",
  pressure: "pressure",
  time: "time",
  energy: "energy",
  area: "area",
  force: "force",
  volume: "volume",
  torque: "torque",
  stiffness: "twisting stiffness",
  rate: "rate of turning",
  gauge: "gauge pressure",
  stress: "stress",
  density: "density",
};

const withArticle = (kind: Kind) => (/^[aei]/.test(KIND_NAMES[kind]) ? "an " : "a ") + KIND_NAMES[kind];

const EXAMPLES: Record<Kind, Record<UnitSystem, string>> = {
  length: { metric: "3.5 m", us: "11 ft 6 in" },
  mass: { metric: "4.2 kg", us: "9 lb 4 oz" },
  angle: { metric: "42.5°", us: "42.5°" },
  speed: { metric: "38 m/s", us: "85 mph" },
  inertia: { metric: "12 kg·m²", us: "280 lb·ft²" },
  ratio: { metric: "0.25", us: "0.25" },
  temperature: { metric: "18 °C", us: "64 °F" },
  pressure: { metric: "1013 hPa", us: "29.92 inHg" },
  time: { metric: "1.5 s", us: "1.5 s" },
  energy: { metric: "250 J", us: "184 ft·lbf" },
  area: { metric: "120 m²", us: "1290 ft²" },
  force: { metric: "850 N", us: "190 lbf" },
  volume: { metric: "40 L", us: "10.5 gal" },
  torque: { metric: "850 N·m", us: "630 lbf·ft" },
  stiffness: { metric: "400 N·m/rad", us: "295 lbf·ft/rad" },
  rate: { metric: "240 rev/min", us: "240 rev/min" },
  gauge: { metric: "6 bar", us: "90 psi" },
  stress: { metric: "40 MPa", us: "5800 psi" },
  density: { metric: "7800 kg/m³", us: "490 lb/ft³" },
};

/** No quantity is written in more characters than this. */
const LONGEST = 80;
/** In SI. Nothing that is built or measured comes near it, and nothing that is reckoned from it overflows. */
const LARGEST = 1e15;

/** Typed marks that mean the same thing brought to one. */
function normalise(text: string): string {
  const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  return text
    .replace(/[\u00a0\u2000-\u200a\u202f\u205f\u3000\t\r\n]/g, " ")
    .replace(/(\d?)([½¼¾⅓⅔⅛⅜⅝⅞])/g, (_, digit: string, sign: string) => {
      return `${digit ? `${digit} ` : ""}${sign.normalize("NFKD").replace("\u2044", "/")}`;
    })
    .replaceAll("\u2044", "/")
    .replace(/⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]+/g, (run) => {
      const digits = [...run].map((sign) => (sign === "⁻" ? "-" : superscripts.indexOf(sign)));
      return `^${digits.join("")}`;
    })
    .replace(/[−–—‐‑]/g, "-")
    .replace(/[’‘′‵´`ʹ]/g, "'")
    .replace(/[”“″‶ʺ]|''/g, '"')
    .replace(/º|˚/g, "°")
    .replace(/℃/g, "°c")
    .replace(/℉/g, "°f")
    .replace(/[⋅∙•]/g, "·")
    .replace(/ +/g, " ")
    .trim();
}

interface NamedUnit {
  pattern: RegExp;
  unit: Unit;
}

function patternOf(name: string): RegExp {
  const escaped = name
    .replace(/[.*+?^${}()|[\]\\]/g, "\\$&")
    .replaceAll(" ", " ?")
    .replaceAll("·", " ?[·*.-]? ?")
    .replaceAll("/", " ?(?:/|per) ?")
    .replace(/([23])$/, "\\^?$1");
  // A name of letters ends where no letter follows; an abbreviation may carry a full stop.
  const end = /[a-z]$/.test(name) ? "(?![a-z])(?:\\.(?!\\d))?" : "";
  return new RegExp(`^${escaped}${end}`, "i");
}

const namedUnits = new Map<Kind, readonly NamedUnit[]>(
  (Object.keys(UNITS) as Kind[]).map((kind) => [
    kind,
    (UNITS[kind] as readonly Unit[]).flatMap((unit) =>
      unit.names.filter(Boolean).map((name) => ({ pattern: patternOf(name), unit })),
    ),
  ]),
);

const TONS = ["t", "short tons", "long tons"];
const TON = /^tons?(?![a-z])/i;

/** The longest unit name that a text starts with. */
function readUnit(text: string, kind: Kind): { units: readonly Unit[]; length: number } | null {
  const ton = kind === "mass" ? TON.exec(text) : null;
  if (ton) {
    const units = (UNITS.mass as readonly Unit[]).filter((unit) => TONS.includes(unit.symbol));
    return { units, length: ton[0].length };
  }
  let best: { units: readonly Unit[]; length: number } | null = null;
  for (const { pattern, unit } of namedUnits.get(kind) ?? []) {
    const length = pattern.exec(text)?.[0].length ?? 0;
    if (length > (best?.length ?? 0)) best = { units: [unit], length };
  }
  return best;
}

/** Reads every term of a normalised text without its sign. */
function readTerms(text: string, kind: Kind, refuse: Refuse): Term[] | Refusal {
  const terms: Term[] = [];
  let rest = text;
  while (rest !== "") {
    const number = readNumber(rest);
    if (!number) return terms.length === 0 ? refuse.number() : refuse.part(rest);
    rest = rest.slice(number.length).trimStart();
    const unit = readUnit(rest, kind);
    if (!unit && rest !== "") return refuse.unit(rest);
    terms.push({ values: number.values, units: unit?.units ?? [] });
    // Feet and inches may be joined by a dash, a comma or a word: 12'-6", 12 ft, 6 in, 12 feet and 6 inches.
    rest = rest.slice(unit?.length ?? 0).replace(/^(?: ?- ?|, | and | )(?=[\d.,])/, "");
    rest = rest.replace(/^ +$/, "");
  }
  return terms;
}

/** Which unit follows without being named: 12 ft 6 is 12 ft 6 in. */
const IMPLIED: Readonly<Record<string, string>> = { ft: "in", "°": "′", "′": "″" };

/** The value of one reading of the terms, in SI; or a sentence that says why there is none. */
function combine(parts: readonly { value: number; unit: Unit }[]): number | string {
  const last = parts[parts.length - 1] as { value: number; unit: Unit };
  if (parts.length === 1) return toSI(last.value, last.unit);
  let total = 0; // in the smallest unit, so that 12 ft 6 in is exactly 150 in
  for (const [index, { value, unit }] of parts.entries()) {
    const next = parts[index + 1];
    if (unit.offset !== undefined) return "Give one temperature.";
    if (next) {
      const ratio = Math.round(differenceRatio(unit, next.unit));
      if (!(ratio > 1)) return `Give one number, or the larger unit before the smaller.`;
      if (!Number.isInteger(value)) return `Write whole ${unit.symbol} before ${next.unit.symbol}.`;
      if (next.value >= ratio) {
        return `${next.value} ${next.unit.symbol} is ${next.value === ratio ? "" : "more than "}1 ${unit.symbol}: check it.`;
      }
    }
    total += value * Math.round(differenceRatio(unit, last.unit));
  }
  return toSI(total, last.unit);
}

const differenceRatio = (large: Unit, small: Unit) =>
  (large.factor[0] * small.factor[1]) / (large.factor[1] * small.factor[0]);

interface Refuse {
  empty(): Refusal;
  number(): Refusal;
  part(rest: string): Refusal;
  unit(rest: string): Refusal;
}

function refusals(typed: string, kind: Kind, system: UnitSystem): Refuse {
  const example = EXAMPLES[kind][system];
  const quoted = typed.trim().length > 40 ? `${typed.trim().slice(0, 40)}…` : typed.trim();
  const notNumber = (message: string): Refusal => ({ ok: false, reason: "not-a-number", message });
  return {
    empty: () => ({
      ok: false,
      reason: "empty",
      message: `Enter ${withArticle(kind)}, such as ${example}.`,
    }),
    number: () =>
      notNumber(`“${quoted}” is not ${withArticle(kind)}. Write a number and its unit, such as ${example}.`),
    part: (rest) =>
      notNumber(
        `“${rest.trim()}” in “${quoted}” is not understood. Write ${withArticle(kind)} such as ${example}.`,
      ),
    unit: (rest) => {
      if (/^- ?[\d.,]/.test(rest)) return notNumber("Give one number, not a range.");
      const word = /^[^\d\s]+/.exec(rest)?.[0];
      if (word === undefined) return refusals(typed, kind, system).part(rest);
      const other = (Object.keys(UNITS) as Kind[]).find((each) => each !== kind && readUnit(rest, each));
      const why = other
        ? `“${word}” is a unit of ${KIND_NAMES[other]}, and this is ${withArticle(kind)}.`
        : `The unit “${word}” is not known here.`;
      return { ok: false, reason: "unknown-unit", message: `${why} Write, for example, ${example}.` };
    },
  };
}

/**
 * Reads a quantity as typed. A bare number is in the system's unit (`unitLabel`; feet for a US length); a unit
 * in the text counts whatever the system. Understood: decimal point or comma, grouped thousands, fractions
 * (1 1/2, 1½, 6-1/2), exponents, and compound writings whose units fall (12 ft 6 in, 12'-6", 9 lb 4 oz,
 * 42° 30'). "1,234" and a "ton" are ambiguous: the choices are handed back to be asked about. The value is in
 * SI, angles in degrees, temperatures in kelvin; it is never beyond 10¹⁵.
 */
export function parseQuantity(text: string, dimension: Dimension, system: UnitSystem): ParsedQuantity {
  const kind = kindOf(dimension);
  const refuse = refusals(text, kind, system);
  const normal = normalise(text);
  if (normal === "") return refuse.empty();
  if (/^[+-]$/.test(normal) || normal.length > LONGEST) return refuse.number();
  const sign = /^[+-]/.exec(normal)?.[0] ?? "";
  const bare = normal.slice(sign.length).trimStart();
  const joined = kind === "length" && system === "us" ? /^(\d+) ?- ?(\d+)$/.exec(bare) : null;
  if (joined && sign === "" && Number(joined[2]) < 12)
    return joinedByDash(joined[1] as string, joined[2] as string);
  const terms = readTerms(bare, kind, refuse);
  if (!Array.isArray(terms)) return terms;

  const shown = shownUnit(dimension, system).unit;
  let readings: { value: number; unit: Unit }[][] = [[]];
  for (const [index, term] of terms.entries()) {
    const before = terms[index - 1]?.units[0]?.symbol;
    const implied = before === undefined ? undefined : IMPLIED[before];
    let units = term.units;
    if (units.length === 0 && terms.length === 1) units = [shown];
    if (units.length === 0 && implied !== undefined && index === terms.length - 1) {
      units = (UNITS[kind] as readonly Unit[]).filter((unit) => unit.symbol === implied);
    }
    if (units.length === 0) {
      const message = `Name the unit of every part of “${text.trim()}”, or give one number, such as ${EXAMPLES[kind][system]}.`;
      return { ok: false, reason: "not-a-number", message };
    }
    readings = readings.flatMap((parts) =>
      units.flatMap((unit) => term.values.map((value) => [...parts, { value, unit }])),
    );
  }
  return decide(readings, sign === "-" ? -1 : 1, refuse);
}

/** The one possible reading, or the question which of several is meant. */
function decide(readings: { value: number; unit: Unit }[][], sign: 1 | -1, refuse: Refuse): ParsedQuantity {
  const choices: { label: string; value: number }[] = [];
  let problem: string | null = null;
  for (const parts of readings) {
    const [first] = parts;
    const signed = parts.length === 1 && first ? [{ ...first, value: sign * first.value }] : parts;
    const combined = combine(signed);
    if (typeof combined === "string") {
      problem = combined;
      continue;
    }
    const value = parts.length === 1 ? combined : sign * combined;
    if (!(Math.abs(value) <= LARGEST)) {
      problem = "That number is too large.";
    } else if (first?.unit.offset !== undefined && value < 0) {
      problem = "That is below absolute zero: check the number and its unit.";
    } else {
      const written = parts.map((part) => `${formatPlain(part.value)} ${part.unit.symbol}`.trim()).join(" ");
      choices.push({ label: (sign < 0 ? "−" : "") + written, value: value + 0 });
    }
  }
  const [only] = choices;
  if (choices.length === 1 && only) return { ok: true, value: only.value };
  if (choices.length === 0) {
    return problem === null ? refuse.number() : { ok: false, reason: "not-a-number", message: problem };
  }
  const asked = choices.map((choice) => choice.label).join(" or ");
  return { ok: false, reason: "ambiguous", message: `Is that ${asked}? Choose one.`, choices };
}

/** "12-6" is 12 ft 6 in to a builder and two numbers to anyone else: asked about. */
function joinedByDash(feet: string, inches: string): Refusal {
  const choices = [
    {
      label: `${Number(feet)} ft ${Number(inches)} in`,
      value: ((Number(feet) * 12 + Number(inches)) * 254) / 10_000,
    },
    { label: `${Number(feet)}.${inches} ft`, value: (Number(`${feet}.${inches}`) * 3048) / 10_000 },
  ];
  const asked = choices.map((choice) => choice.label).join(" or ");
  return { ok: false, reason: "ambiguous", message: `Is that ${asked}? Choose one.`, choices };
}
