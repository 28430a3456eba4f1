/** How the log says what happened. */
import { distanceText, lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { type HazardRequest, type trials, tuning } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import type { MEANS, PARTS, Result, Throw } from "./log";

export const RESULT_WORDS: Record<Result, string> = {
  landed: "Landed ahead",
  backwards: "Went backwards",
  "straight-up": "Straight up",
  "no-release": "No release",
  misfire: "Misfire",
  broke: "Something broke",
};

export const PART_LABELS: Record<(typeof PARTS)[number], string> = {
  sling: "Sling",
  arm: "Arm",
  pivot: "Pivot and axle",
  hanger: "Counterweight's hanger",
  stop: "End stop",
  chamber: "Chamber",
};

export const MEANS_LABELS: Record<(typeof MEANS)[number], string> = {
  tape: "Tape",
  wheel: "Measuring wheel",
  laser: "Laser rangefinder",
  phone: "The phone's position",
  paces: "Paces",
};

/** Why a number of a throw is not taken, by its name. */
export function refusalText(
  { name, limit, message }: trials.RefusedNumber,
  request: HazardRequest,
  system: UnitSystem,
): string {
  const knob = tuning.knobsOf(request).find((each) => each.name === name);
  const label = name === "mass" ? "Projectile, weighed" : (knob?.label ?? name);
  if (!limit || !knob) return `${label}: ${message}`;
  return `${label}: the machine takes at ${limit.end} ${formatQuantity(limit.value, knob.dimension, system)}.`;
}

export function markText(
  { result, distance, aside }: Pick<Throw, "result" | "distance" | "aside">,
  system: UnitSystem,
): string {
  if (distance === null) return RESULT_WORDS[result];
  const off =
    aside === null || aside === 0
      ? ""
      : `, ${distanceText(Math.abs(aside), system)} ${aside < 0 ? "left" : "right"}`;
  const words = result === "landed" ? "" : `${RESULT_WORDS[result]}: `;
  return `${words}${distanceText(distance, system)}${off}`;
}

export function settingText(
  settings: Throw["settings"],
  knobs: readonly tuning.Knob[],
  system: UnitSystem,
): string {
  const parts = Object.entries(settings).map(([name, value], index) => {
    const knob = knobs.find((each) => each.name === name);
    const shown = knob ? formatQuantity(value, knob.dimension, system) : String(value);
    return `${index === 0 ? (knob?.label ?? name) : lowerFirst(knob?.label ?? name)} ${shown}`;
  });
  return parts.join(", ");
}

export function windText({ wind }: Pick<Throw, "wind">, declared: HazardRequest, system: UnitSystem): string {
  if (!wind) return `not read: ${declared.air?.wind?.speed ? "as declared then" : "reckoned as still"}`;
  const { speed, direction, height, by } = wind;
  if (speed === 0) return "still";
  const towards = formatQuantity(direction, "angle", system, { digits: 0 });
  return `${formatQuantity(speed, "speed", system, { digits: 1 })} towards ${towards}, at ${formatQuantity(height, "distance", system, { digits: 0 })}${by ? `, ${by}` : ""}`;
}

/** What was read of it at the throw. */
export function airText({ air }: Pick<Throw, "air">, system: UnitSystem): string {
  const { temperature, pressure } = air ?? { temperature: null, pressure: null };
  const parts = [
    temperature === null ? null : formatQuantity(temperature, "temperature", system),
    pressure === null ? null : formatQuantity(pressure, "pressure", system),
  ].filter((part) => part !== null);
  return parts.length > 0 ? parts.join(", ") : "not read: as declared then";
}

/** "2031-05-03T14:20" as "3 May 2031, 14:20". */
export const whenText = (at: string): string =>
  new Date(`${at}:00Z`).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short", timeZone: "UTC" });
