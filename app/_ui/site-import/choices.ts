/** What a person makes of a previewed file: which places come in, as what, under which name. Pure. */
import { type ImportAnswer, importItemOf, type PreviewItem } from "@/lib/api/contracts";
import { closedLine } from "@/lib/exchange/closed-line";
import { FEATURE_KINDS } from "@/lib/zones/kinds";

export interface Choice {
  chosen: boolean;
  /** A value of `waysOf`; "" while nobody has said what it is. */
  as: string;
  name: string;
}

/** Heights that count from the sea level: left out, or raised by what the sea level lies above the ellipsoid (m). */
export type SeaLevel = { keep: false } | { keep: true; offset: number | null };

/** What a place can be: kinds whose shape fits, a line closed to an area, and points of their own kinds. */
export function waysOf({ geometry, height }: PreviewItem): { value: string; label: string }[] {
  if (!geometry) return [];
  const kinds = FEATURE_KINDS.filter(({ geometries }) => geometries.includes(geometry.type)).map(
    ({ kind, title }) => ({ value: `feature:${kind}`, label: title }),
  );
  if (geometry.type === "LineString" && closedLine(geometry))
    return [
      ...kinds,
      ...FEATURE_KINDS.filter(({ geometries }) => geometries.includes("Polygon")).map(({ kind, title }) => ({
        value: `feature:${kind}:area`,
        label: `${title} (closed to an area)`,
      })),
    ];
  if (geometry.type !== "Point") return kinds;
  return [
    ...kinds,
    { value: "firing-point", label: "Firing point" },
    { value: "control-point", label: "Control point" },
    ...(height === null ? [] : [{ value: "spot-height", label: "Spot height" }]),
  ];
}

/** As the file says it, where it says it and the place is new. */
export function firstChoice(item: PreviewItem): Choice {
  const as = item.what === "feature" ? (item.kind ? `feature:${item.kind}` : "") : item.what;
  return { chosen: item.problem === null && as !== "" && item.fate === "new", as, name: item.name };
}

/** Why a place cannot come in as it is chosen, in a sentence; null when it can. */
export function hindrance(item: PreviewItem, { as, name }: Choice, sea: SeaLevel): string | null {
  if (item.problem !== null) return item.problem;
  if (as === "") return "Choose what it is.";
  if (name.trim() === "" && (as.startsWith("feature:") || as === "control-point")) return "Give it a name.";
  if (as === "spot-height" && item.heightFrom === "sea-level" && !(sea.keep && sea.offset !== null))
    return "Its height counts from the sea level: say above how far that lies above the ellipsoid.";
  return null;
}

export interface Wanted {
  items: unknown[];
  /** Of each, its index among the previewed. */
  from: number[];
}

/** What is sent: everything chosen that nothing hinders. */
export function wanted(items: readonly PreviewItem[], choices: readonly Choice[], sea: SeaLevel): Wanted {
  const result: Wanted = { items: [], from: [] };
  for (const [index, item] of items.entries()) {
    const choice = choices[index];
    if (!choice?.chosen || hindrance(item, choice, sea) !== null) continue;
    result.items.push(importItemOf(chosenItem(item, choice, sea)));
    result.from.push(index);
  }
  return result;
}

function chosenItem(item: PreviewItem, { as, name }: Choice, sea: SeaLevel): PreviewItem {
  const [what, kind, area] = as.split(":") as [PreviewItem["what"], PreviewItem["kind"], string?];
  const closed = area && item.geometry ? closedLine(item.geometry) : null;
  const raised = sea.keep && sea.offset !== null && item.height !== null ? item.height + sea.offset : null;
  const same = what === item.what && (kind ?? null) === item.kind;
  return {
    ...item,
    what,
    kind: kind ?? null,
    name: name.trim(),
    geometry: closed ?? item.geometry,
    height: item.heightFrom === "sea-level" ? raised : item.height,
    // A rule and a distance were meant for what the file called it.
    ...(same ? {} : { rule: null, standOff: null }),
  };
}

/** What needs a person first comes first. */
export function ordered(items: readonly PreviewItem[]): number[] {
  const rank = (item: PreviewItem) => {
    if (item.problem !== null) return 0;
    if (item.what === "feature" && item.kind === null) return 1;
    if (item.fate === "same-name") return 2;
    if (item.fate === "identical") return 5;
    return item.warnings.length > 0 ? 3 : 4;
  };
  return items
    .map((_, index) => index)
    .sort((a, b) => rank(items[a] as PreviewItem) - rank(items[b] as PreviewItem) || a - b);
}

export const FATE_WORDS: Record<PreviewItem["fate"], string | null> = {
  new: null,
  "same-name": "One of the same name is there already: both would be there.",
  identical: "The very same is there already.",
};

/** What came in. */
export function importedWords(
  name: string,
  { features, firingPoints, controlPoints, spotHeights }: ImportAnswer,
): string {
  const some = (count: number, one: string) =>
    count === 0 ? [] : [`${count} ${one}${count === 1 ? "" : "s"}`];
  const parts = [
    ...some(features, "site feature"),
    ...some(firingPoints, "firing point"),
    ...some(controlPoints, "control point"),
    ...some(spotHeights, "spot height"),
  ];
  return `From ${name} came ${parts.join(", ")}.`;
}
