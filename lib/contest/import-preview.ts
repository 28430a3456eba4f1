/** A file's places beside what is on the site: what is new, what is there already, what cannot come in. Pure. */
import { check } from "../api/check";
import { type ContestOverview, HANDHELD, importItem, importItemOf, type PreviewItem } from "../api/contracts";
import type { SiteItem } from "../exchange";

/** What is on the site already, and what items before this one take. */
type There = Pick<Laid, "firingPoints" | "controlPoints" | "spotHeights"> &
  Seen & { alike: Map<string, Laid["features"]> };
type Laid = Pick<ContestOverview, "features" | "firingPoints" | "controlPoints" | "spotHeights">;

export function alreadyThere(site: Laid): There {
  const alike: There["alike"] = new Map();
  for (const feature of site.features.filter(({ retired }) => !retired)) {
    const key = likeness(feature);
    alike.set(key, [...(alike.get(key) ?? []), feature]);
  }
  return {
    ...site,
    alike,
    numbers: new Set(site.firingPoints.map(({ number }) => number)),
    names: new Set(site.controlPoints.map(({ name }) => name)),
  };
}

const likeness = ({ kind, name }: { kind: string | null; name: string }) => `${kind} ${name}`;

export interface Seen {
  numbers: Set<number>;
  names: Set<string>;
}

/** An item with what it would meet on the site, and what its own route would say of it. */
export function previewOf(item: SiteItem, index: number, there: There): PreviewItem {
  const warnings = [...item.warnings];
  let { name, number } = item;
  if (name === "" && (item.what === "feature" || item.what === "control-point")) {
    name = `Unnamed ${index + 1}`;
    warnings.push("It had no name.");
  }
  const fate = item.problem === null ? fateOf({ ...item, name }, there) : "new";
  if (fate !== "identical" && number !== null && there.numbers.has(number)) {
    warnings.push(`Number ${number} is taken: it gets the next that is free.`);
    number = null;
  }
  if (fate !== "identical" && item.what === "control-point" && there.names.has(name))
    warnings.push("There is a control point of this name: give it another.");
  if (fate !== "identical" && item.what === "firing-point" && item.accuracy === null)
    warnings.push(
      `It gives no accuracy: ${HANDHELD} m, a handheld receiver's, is taken (common practice, no source), and every zone from it grows by that.`,
    );
  if (number !== null) there.numbers.add(number);
  if (item.what === "control-point") there.names.add(name);
  const { geometry, ...rest } = item;
  const preview: PreviewItem = { ...rest, geometry, name, number, warnings, fate };
  if (item.problem !== null || (item.what === "feature" && item.kind === null)) return preview;
  const checked = check(importItem, importItemOf(preview));
  const [wrong] = checked.ok ? [] : checked.errors;
  return wrong ? { ...preview, problem: `${wrong.field}: ${wrong.message}` } : preview;
}

/** Degrees: a tenth of a millimetre. */
const SAME = 1e-9;

function sameNumbers(a: unknown, b: unknown): boolean {
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((each, index) => sameNumbers(each, b[index]));
  return typeof a === "number" && typeof b === "number" && Math.abs(a - b) <= SAME;
}

function fateOf(item: SiteItem, site: There): PreviewItem["fate"] {
  const coordinates = item.geometry?.coordinates;
  const at = (point: { longitude: number; latitude: number }) =>
    sameNumbers([point.longitude, point.latitude], coordinates);
  const fate = (identical: boolean, sameName: boolean) =>
    identical ? "identical" : sameName ? "same-name" : "new";
  // What the file leaves open is as it is there; a height from the sea level cannot be compared.
  const measuredAlike = (point: { height: number; accuracy: number }) =>
    (item.height === null || item.heightFrom === "sea-level" || item.height === point.height) &&
    (item.accuracy === null || item.accuracy === point.accuracy);
  if (item.what === "spot-height")
    return fate(
      site.spotHeights.some((spot) => spot.height === item.height && !spot.retired && at(spot)),
      false,
    );
  if (item.what === "firing-point") {
    const alike = site.firingPoints.filter(({ name }) => name === item.name && name !== "");
    return fate(
      site.firingPoints.some(
        (point) =>
          at(point) &&
          measuredAlike(point) &&
          point.name === item.name &&
          (item.number ?? point.number) === point.number,
      ),
      alike.length > 0,
    );
  }
  if (item.what === "control-point") {
    const alike = site.controlPoints.filter(({ name }) => name === item.name);
    return fate(
      alike.some((point) => at(point) && measuredAlike(point) && !point.retired),
      alike.length > 0,
    );
  }
  const alike = site.alike.get(likeness(item)) ?? [];
  return fate(
    alike.some(
      ({ geometry, standOff, rule }) =>
        geometry.type === item.geometry?.type &&
        sameNumbers(geometry.coordinates, coordinates) &&
        standOff === item.standOff &&
        rule === item.rule,
    ),
    alike.length > 0,
  );
}
