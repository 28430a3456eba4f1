"use client";
/** A film's release beside what the model without loss makes of the same settings. */
import { lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import type { HazardRequest, tuning } from "@/lib/throw";
import { formatQuantity, formatUncertain, type UnitSystem } from "@/lib/units";
import type { Throw } from "../log/log";
import type { Found } from "./release-checks";

export function AgainstModel({
  found: { speed, launchAngle, slingAngle },
  request,
  efficiency,
  setting,
  made,
  number,
  system,
}: {
  found: Found;
  request: HazardRequest;
  efficiency: number | null;
  setting: tuning.Knob;
  made: Throw | undefined;
  number: number | null;
  system: UnitSystem;
}) {
  const { preview, stale } = usePreview(request);
  const nominal = stale ? null : (preview?.nominal ?? null);
  if (!nominal || !(nominal.releaseSpeed > 0)) return null;
  const share = (speed.value / nominal.releaseSpeed) ** 2;
  const within = (2 * share * speed.uncertainty) / speed.value;
  return (
    <>
      <p data-told="against-model">
        {number ? `At the settings of throw ${number} the` : "The"} model without loss releases at{" "}
        {formatQuantity(nominal.releaseSpeed, "speed", system, { digits: 1 })} and{" "}
        {formatQuantity(nominal.launchAngle, "angle", system)}: the film has{" "}
        {formatUncertain(share, within, "ratio", system)} of its energy
        {efficiency === null ? "" : `, the marks say ${efficiency.toFixed(2)}`}, and goes{" "}
        {formatQuantity(Math.abs(launchAngle.value - nominal.launchAngle), "angle", system)}{" "}
        {launchAngle.value < nominal.launchAngle ? "lower" : "higher"}
        {slingAngle && setting.name === "releaseAngle"
          ? `. The ${lowerFirst(setting.label)} was set to ${formatQuantity(made?.settings[setting.name] ?? setting.present, "angle", system)}`
          : ""}
        .
      </p>
      {share - within > 1 ? (
        <Notice kind="problem" title="More energy than the machine has">
          <p>
            No machine throws faster than its model without loss: the known length, the frame rate, or the
            machine's numbers are wrong.
          </p>
        </Notice>
      ) : null}
    </>
  );
}
