/** The form of one throw: what is proposed from the throw before, and what it reads as. Pure. */
import { type IssueField, issueSentence } from "@/app/_ui/issue-words";
import { type Quantity, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import { type HazardRequest, trials, type tuning } from "@/lib/throw";
import type { Dimension, UnitSystem } from "@/lib/units";
import { MEANS, type Result, type Throw, throwSchema } from "../log/log";
import { HAND_HEIGHT } from "../log/measured";
import { refusalText } from "../log/words";

export const FIELDS = {
  distance: { label: "Distance", dimension: "distance" },
  aside: { label: "To the right of the bearing", dimension: "distance" },
  uncertainty: { label: "How well the distance is known", dimension: "distance" },
  mass: { label: "Projectile, weighed", dimension: "mass" },
  windSpeed: { label: "Wind, 0 when still", dimension: "speed" },
  windDirection: { label: "Wind blows towards", dimension: "angle" },
  windHeight: { label: "Read at height", dimension: "distance" },
  temperature: { label: "Air temperature then", dimension: "temperature" },
  pressure: { label: "Air pressure then", dimension: "pressure" },
} as const satisfies Record<string, { label: string; dimension: Dimension }>;
export type FieldName = keyof typeof FIELDS;

export interface ThrowForm {
  at: string;
  result: Result;
  quantities: Readonly<Record<FieldName, Quantity>>;
  setting: Quantity;
  /** What else was changed: a knob's name, or none. */
  other: string;
  otherValue: Quantity;
  /** How the distance was measured, or nothing. */
  means: string;
  windBy: string;
  note: string;
}

const EMPTY: Quantity = { text: "", value: null };
/** A mark that is known worse (standard) than this share of its distance is measured again. */
const USELESS = 0.2;

/** "2031-05-03T14:20" of an instant, as the clock on the wall has it. */
export function localMinute(now: Date): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}T${two(now.getHours())}:${two(now.getMinutes())}`;
}

/** Setting, wind, mass and the rest as they were at the throw before; only the result is new. */
export function proposedForm(
  before: Throw | undefined,
  setting: tuning.Knob,
  knobs: readonly tuning.Knob[],
  mass: number,
  at: string,
  system: UnitSystem,
): ThrowForm {
  const wind = before?.wind;
  const quantities: Record<FieldName, Quantity> = {
    distance: EMPTY,
    aside: EMPTY,
    // Of each mark its own: one slip must not be proposed from throw to throw.
    uncertainty: EMPTY,
    mass: quantityOf(before?.mass ?? mass, "mass", system),
    windSpeed: quantityOf(wind?.speed, "speed", system),
    windDirection: quantityOf(wind?.direction, "angle", system),
    windHeight: quantityOf(wind?.height ?? HAND_HEIGHT, "distance", system),
    // Of another day, and out of sight: it must not be proposed unseen.
    temperature: EMPTY,
    pressure: EMPTY,
  };
  const [name, value] = Object.entries(before?.settings ?? {}).find(([each]) => each !== setting.name) ?? [];
  const other = knobs.find((each) => each.name === name);
  return {
    at,
    result: "landed",
    quantities,
    setting: quantityOf(before?.settings[setting.name] ?? setting.present, setting.dimension, system),
    other: other?.name ?? "",
    otherValue: other ? quantityOf(value, other.dimension, system) : EMPTY,
    means: before?.means ?? "",
    windBy: wind?.by ?? "",
    note: "",
  };
}

/** A throw as it stands in the log, to be corrected. */
export function formOf(
  made: Throw,
  setting: tuning.Knob,
  knobs: readonly tuning.Knob[],
  system: UnitSystem,
): ThrowForm {
  const form = proposedForm(made, setting, knobs, made.mass ?? 0, made.at, system);
  return {
    ...form,
    result: made.result,
    note: made.note,
    quantities: {
      ...form.quantities,
      mass: quantityOf(made.mass, "mass", system),
      distance: quantityOf(made.distance, "distance", system),
      aside: quantityOf(made.aside, "distance", system),
      uncertainty: quantityOf(made.uncertainty, "distance", system),
      temperature: quantityOf(made.air?.temperature, "temperature", system),
      pressure: quantityOf(made.air?.pressure, "pressure", system),
    },
  };
}

/** A mark is asked for where the result is one; something that broke may have thrown yet. */
export const asksDistance = (result: Result): "must" | "may" | "no" =>
  result === "landed" || result === "backwards"
    ? "must"
    : result === "broke" || result === "straight-up"
      ? "may"
      : "no";

export type FormRead =
  | { ok: true; made: Omit<Throw, "machine" | "pieces" | "film" | "trace"> }
  | { ok: false; errors: Readonly<Record<string, string>> };

export function readThrow(
  form: ThrowForm,
  id: string,
  setting: tuning.Knob,
  knobs: readonly tuning.Knob[],
  system: UnitSystem,
  /** The machine that it is a throw of. */
  request: HazardRequest,
): FormRead {
  const errors: Record<string, string> = {};
  const asked = asksDistance(form.result);
  const read = (name: FieldName, optional: boolean): number | null => {
    const { label, dimension } = FIELDS[name];
    const quantity = form.quantities[name];
    const problem = quantityProblem(label, quantity, dimension, system, optional);
    if (problem) errors[name] = problem;
    return quantity.value;
  };
  const distance = asked === "no" ? null : read("distance", asked === "may");
  const aside = asked === "no" || distance === null ? null : read("aside", true);
  const uncertainty = asked === "no" || distance === null ? null : read("uncertainty", true);
  const mass = read("mass", true);
  const speed = read("windSpeed", true);
  const direction = speed ? read("windDirection", false) : 0;
  const height = speed ? read("windHeight", false) : HAND_HEIGHT;
  const temperature = read("temperature", true);
  const pressure = read("pressure", true);
  const settingWrong = quantityProblem(setting.label, form.setting, setting.dimension, system);
  if (settingWrong) errors.setting = settingWrong;
  const other = knobs.find(({ name }) => name === form.other);
  const otherWrong = other ? quantityProblem(other.label, form.otherValue, other.dimension, system) : null;
  if (otherWrong) errors.otherValue = otherWrong;
  if (distance !== null && !(distance > 0)) {
    errors.distance = "Distance: give it as a number above 0; whether it went backwards is the result.";
  }
  if (uncertainty !== null && distance !== null) {
    const { label } = FIELDS.uncertainty;
    if (!(uncertainty > 0))
      errors.uncertainty = `${label}: nobody knows it exactly. Leave it empty, or give more than 0.`;
    else if (uncertainty > USELESS * distance)
      errors.uncertainty = `${label}: it is more than a fifth of the distance, which says nothing of the machine. Measure again, or leave it empty.`;
  }
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const settings: Record<string, number> = {
    [setting.name]: form.setting.value as number,
    ...(other ? { [other.name]: form.otherValue.value as number } : {}),
  };
  const refused = trials.refusedNumber(request, settings, mass);
  if (refused) {
    const field = refused.name === "mass" ? "mass" : refused.name === setting.name ? "setting" : "otherValue";
    return { ok: false, errors: { [field]: refusalText(refused, request, system) } };
  }
  const means = MEANS.find((each) => each === form.means);
  const made = {
    id,
    machine: "",
    at: form.at.slice(0, 16),
    settings,
    wind: speed === null ? null : { speed, direction, height, by: form.windBy.trim() },
    ...(temperature === null && pressure === null ? {} : { air: { temperature, pressure } }),
    mass,
    result: form.result,
    distance,
    aside,
    uncertainty,
    ...(means ? { means } : {}),
    note: form.note.trim(),
    pieces: [],
    film: null,
  };
  const parsed = throwSchema.safeParse(made);
  if (parsed.success) {
    const { machine: _, pieces: __, film: ___, ...rest } = parsed.data;
    return { ok: true, made: rest };
  }
  for (const issue of parsed.error.issues) {
    const field = fieldOf(issue.path.map(String));
    const named: IssueField =
      field in FIELDS ? FIELDS[field as FieldName] : { label: field === "at" ? "Date and time" : "Throw" };
    const words = AIR_WORDS[field];
    errors[field] ??= words ? `${named.label}: ${words}` : issueSentence(issue, named, system);
  }
  return { ok: false, errors };
}

/** What of the air is no air on Earth, in the reader's words. */
const AIR_WORDS: Readonly<Record<string, string>> = {
  temperature: "no air is so cold or so hot. Enter what a thermometer in the shade reads.",
  pressure: "enter what a barometer at the place reads, not reduced to sea level; about 1013 hPa at the sea.",
};

const fieldOf = ([first = "", second = ""]: readonly string[]): string =>
  first === "air"
    ? second
    : first === "wind"
      ? `wind${second.charAt(0).toUpperCase()}${second.slice(1)}`
      : first === "settings"
        ? "setting"
        : first;
