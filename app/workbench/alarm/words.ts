/** How a throw that calls STOP is told. */
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/lib/units";
import { whenText } from "../trials/log/words";
import type { Carried } from "./carried";
import type { Sign } from "./verdict";

const FOOT = 0.3048;
/** A mark lies about where it was to be expected: within this share. */
const ABOUT = 0.25;

export const throwText = ({ number, group, finding }: Sign, system: UnitSystem): string =>
  `Throw ${number} of “${group.name}”: ${distanceText(finding.distance, system)} ${finding.way === "forward" ? "ahead" : "backwards"}`;

/** Beyond what it went. */
export function beyondText({ finding }: Sign, system: UnitSystem): string {
  const { rank, limit, provisional } = finding;
  const there = limit === null ? "" : ` ${distanceText(limit, system)},`;
  if (rank === "alarm")
    return limit === null
      ? "farther than the declared machine can without any loss"
      : `beyond${there} what 99 in 100 stay below by the other throws`;
  return `beyond${there} the worst that is computed for the machine as it was declared${
    provisional ? " (without tolerances: these are being worked out)" : ""
  }`;
}

/** Which throw of another browser's log, and what was found of it. */
export function carriedText(
  { rank, way, distance, limit, at, number, machine }: Carried,
  system: UnitSystem,
): string {
  const of = machine ? `of “${machine}”` : "of a machine that is not named";
  const when = at ? `, thrown ${whenText(at)}` : "";
  if (rank === "not-judged" || distance === null)
    return number > 0
      ? `Whether one of ${number} ${number === 1 ? "throw" : "throws"} ${of} went too far was not judged${at ? `; the last was thrown ${whenText(at)}` : ""}`
      : "Practice throws of it could not be read: whether one went too far is not known";
  const there = limit === null ? "" : ` ${distanceText(limit, system)},`;
  const found =
    rank === "hold"
      ? `beyond${there} the worst that is computed for the machine as it was declared`
      : `beyond${there} what its other throws make likely`;
  return `Throw ${number} ${of}: ${distanceText(distance, system)} ${way === "backward" ? "backwards" : "ahead"}, ${found}${when}`;
}

/** A slip of the hand that would explain it, where there is one. */
export function slipText({ finding: { distance, expected } }: Sign, system: UnitSystem): string | null {
  if (expected === null || !(expected > 0)) return null;
  const near = (metres: number) => Math.abs(metres - expected) <= ABOUT * expected;
  const told = (metres: number) =>
    `it would be ${distanceText(metres, system)}, about what was to be expected.`;
  if (near(distance * FOOT))
    return `If ${Math.round(distance)} is its number of feet, not of metres, ${told(distance * FOOT)}`;
  if (near(distance / 10)) return `With a digit less ${told(distance / 10)}`;
  return null;
}
