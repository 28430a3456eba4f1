/** What a calibration says of its marks, one by one and of all together. */
import type { Calibration } from "../contracts/calibration";
import type { Fit, Flyers, Mark } from "./efficiency";
import { type Held, isVague } from "./judging";

export function remarkOf(
  { measured, efficiency, fly }: Mark,
  verdict: Calibration["marks"][number]["verdict"],
  { limits, most }: Held,
  flyers: Flyers,
): string | null {
  const said: string[] = [];
  if (!fly)
    said.push(
      `It cannot be computed as it was written down, and is judged as if it were set as declared: ${flyers.reasonOf(measured)}`,
    );
  else if (efficiency === null) said.push("No efficiency explains it: check its distance and its setting.");
  if (isVague(measured))
    said.push(
      "It is known worse than to a fifth of its distance: beside better ones it judges no other, and nothing is taken off it for that.",
    );
  if (verdict === "alarm" && limits && measured.distance <= limits.upper99 && measured.distance > most)
    said.push(
      "Only the wind, the projectile or the setting that was written down would explain it, and none of them may explain so much: read them again.",
    );
  if (verdict === "short")
    said.push(
      "It fell far short and judges no other: find out why before the next throw. If it was written down wrong, correct it.",
    );
  return said.length > 0 ? said.join(" ") : null;
}

export function notesOf(
  fit: Fit | null,
  marks: Calibration["marks"],
  { alarm, hold }: { alarm: boolean; hold: boolean },
): string[] {
  const notes: string[] = [];
  if (hold) {
    notes.push(
      "A mark lies beyond the worst throw: the model or the declaration is wrong. Hold the range until the safety officer has found out why.",
    );
  }
  if (alarm) {
    notes.push(
      "A mark lies beyond what 99 of 100 throws would reach: something has changed. Look at the machine, the projectile and the wind before the next throw.",
    );
  }
  if (marks.some(({ verdict }) => verdict === "short")) {
    notes.push(
      "A throw fell far short of the others. A loop that slips badly or a rope that drags may throw too far the next time: find out why.",
    );
  }
  if (marks.some(({ modelled }) => modelled === null)) {
    notes.push("A throw cannot be computed as it was written down, so its mark says nothing of the model.");
  } else if (marks.some(({ efficiency }) => efficiency === null)) {
    notes.push("No efficiency explains a mark: check its distance and the declaration.");
  }
  if (fit && fit.efficiency > 1) {
    notes.push(
      "The throws carry more energy than the model, which loses none, can give: what was declared is not what was thrown.",
    );
  }
  if (fit && fit.scatter === null) {
    notes.push(
      "One throw says nothing of the scatter: until the third, an alarm is a fifth beyond the lower of the others.",
    );
  }
  return notes;
}
