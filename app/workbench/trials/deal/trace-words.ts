/** What was done to a throw after it had been written down, in sentences. */
import { lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { type HazardRequest, tuning } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import type { Trace } from "../log/log";
import type { Numbers } from "../log/throw-schema";
import { airText, MEANS_LABELS, markText, RESULT_WORDS, settingText, whenText, windText } from "../log/words";

/** What stood before in each field that was changed. */
export function wasText(was: Partial<Numbers>, declared: HazardRequest, system: UnitSystem): string {
  const parts: string[] = [];
  const has = (name: keyof Numbers) => name in was;
  if (has("result") && was.result) parts.push(lowerFirst(RESULT_WORDS[was.result]));
  if (has("distance"))
    parts.push(
      was.distance == null
        ? "no distance"
        : `distance ${markText({ result: "landed", distance: was.distance, aside: null }, system)}`,
    );
  if (has("aside")) parts.push(quantity("to the right", was.aside, "distance", system));
  if (was.settings) parts.push(lowerFirst(settingText(was.settings, tuning.knobsOf(declared), system)));
  if (has("mass")) parts.push(quantity("projectile", was.mass, "mass", system));
  if (was.wind !== undefined) parts.push(`wind ${windText({ wind: was.wind }, declared, system)}`);
  if (has("air")) parts.push(`air ${airText({ air: was.air }, system)}`);
  if (has("uncertainty")) parts.push(quantity("known to", was.uncertainty, "distance", system));
  if (was.means) parts.push(`measured with: ${lowerFirst(MEANS_LABELS[was.means])}`);
  if (was.at) parts.push(`thrown ${whenText(was.at)}`);
  if (was.note !== undefined) parts.push(was.note ? `note “${was.note}”` : "no note");
  return parts.join(", ");
}

function quantity(
  label: string,
  value: number | null | undefined,
  dimension: "distance" | "mass",
  system: UnitSystem,
): string {
  return `${label} ${value == null ? "not told" : formatQuantity(value, dimension, system)}`;
}

export function traceText(
  { at, did, reason, was }: Trace,
  declared: HazardRequest,
  system: UnitSystem,
): string {
  const when = whenText(at);
  if (did === "struck") return `Struck out ${when}: ${sentence(reason)}`;
  if (did === "restored") return `Counted again ${when}.`;
  if (did === "answered") return `STOP dealt with ${when}: ${sentence(reason)}`;
  const before = was ? wasText(was, declared, system) : "";
  return `Corrected ${when}${before ? `; before: ${before}` : ""}.`;
}

const sentence = (words: string): string => `${words.replace(/\.$/, "")}.`;
