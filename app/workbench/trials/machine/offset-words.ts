/** What the throws say of the scale that the setting is read on. */
import { lowerFirst } from "@/app/_ui/hazard-sheet/words";
import { trials, type tuning } from "@/lib/throw";
import { formatUncertain, type UnitSystem } from "@/lib/units";

export function offsetText(
  offset: trials.OffsetFit | null,
  { label }: Pick<tuning.Knob, "label">,
  system: UnitSystem,
): string {
  const name = lowerFirst(label);
  if (!offset) return "";
  if (!offset.told) {
    const whether = `Whether the scale of the ${name} reads true cannot be told`;
    if (offset.why === "few-settings")
      return `${whether}: that takes throws at ${trials.FEWEST_SETTINGS} settings or more.`;
    if (offset.why === "few-throws") return `${whether}: that takes ${trials.FEWEST_THROWS} throws or more.`;
    if (offset.why === "alike")
      return `${whether}: over the settings thrown, an offset looks like another efficiency. Throw at settings farther apart, on both sides of the farthest throw.`;
    return `${whether}: no offset within 15° explains these marks better.`;
  }
  const { value, uncertainty } = { value: offset.offset, uncertainty: offset.uncertainty };
  const amount = formatUncertain(value, uncertainty, "angle", system);
  return offset.matters
    ? `The scale of the ${name} seems to be off: add ${amount} to what it reads. With that the efficiency would be ${formatUncertain(offset.efficiency, offset.efficiencyUncertainty, "ratio", system)}.`
    : `The scale of the ${name} may read true: an offset of ${amount} is no more than its uncertainty.`;
}
