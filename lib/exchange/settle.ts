/** From what a reader found to what could be kept: taken apart, checked, repaired where only one thing can be meant. */

import {
  FEATURE_RULES,
  type FeatureGeometry,
  type FeatureKindName,
  featureGeometrySchema,
  featureKind,
} from "../zones";
import { closedLine } from "./closed-line";
import { type HeightFrom, LIMITS, type RawPlace, type ReadOptions, type SiteItem, type What } from "./items";
import { meaningOf, wordsOf } from "./kinds";
import { marked } from "./numbers";
import {
  distanceTo,
  isNear,
  type Part,
  type PartType,
  partsOf,
  positionProblem,
  positionsOf,
  type RawPosition,
  wrapped,
} from "./parts";

const TITLES: Record<PartType, string> = { Point: "point", LineString: "line", Polygon: "area" };
const LONGEST_NAME = 80;

/** What a place of the file comes to; none where Fairthrow computes it itself, or somebody must sign for it here. */
export function settle(
  raw: RawPlace,
  { site, swap = false }: ReadOptions,
): SiteItem[] | "computed" | "signed" {
  const meaning = meaningOf([wordsOf(raw.marks.what), wordsOf(raw.marks.kind), ...raw.hints]);
  if (meaning?.what === "computed" || meaning?.what === "signed") return meaning.what;
  const said = meaning ?? { what: "feature" as const, kind: null };
  const parts = raw.problem ? [] : partsOf(raw.geometry);
  if (parts === null || parts.length === 0) {
    const problem = raw.problem ?? NOTHING;
    return [{ ...describe(raw, said, null), geometry: null, problem }];
  }
  return parts.map((part, index) => {
    const many = parts.length > 1;
    const item: SiteItem = {
      ...describe(raw, said, part.type),
      ...(many && { where: `${raw.where}, part ${index + 1}` }),
      geometry: null,
      problem: null,
    };
    if (many && item.name !== "")
      item.name = `${item.name.slice(0, LONGEST_NAME - 12)} (${index + 1} of ${parts.length})`;
    return withGeometry(item, part, site, swap, raw.heightFrom);
  });
}

const NOTHING = "There is no point, line or area here that could be read.";

/** Everything but its geometry. */
function describe(
  raw: RawPlace,
  said: { what: What; kind: FeatureKindName | null },
  type: PartType | null,
): Omit<SiteItem, "geometry" | "problem"> {
  const warnings: string[] = [];
  const numberOf = (mark: string, words: string) => {
    const value = marked(raw.marks[mark]);
    if (value === undefined)
      warnings.push(
        `Its ${words}, “${wordsOf(raw.marks[mark]).slice(0, 40)}”, is no number and is left out.`,
      );
    return value ?? null;
  };
  let name = raw.name.trim();
  if (name.length > LONGEST_NAME) {
    name = name.slice(0, LONGEST_NAME).trim();
    warnings.push(`Its name is cut to ${LONGEST_NAME} characters.`);
  }
  let rule = FEATURE_RULES.find((known) => known === wordsOf(raw.marks.rule)) ?? null;
  if (rule === null && wordsOf(raw.marks.rule) !== "")
    warnings.push(
      `Its rule, “${wordsOf(raw.marks.rule).slice(0, 40)}”, is not known: that of its kind counts.`,
    );
  if (rule === "contains" || said.what !== "feature") rule = null;
  let bearing = said.what === "firing-point" ? numberOf("bearing", "bearing") : null;
  if (bearing !== null && !(bearing >= 0 && bearing < 360)) {
    warnings.push("Its bearing is not 0 to 360 degrees and is left out.");
    bearing = null;
  }
  const height = numberOf("height", "height");
  const isPoint = type === "Point";
  return {
    where: raw.where,
    what: said.what,
    kind: said.kind,
    name,
    height: isPoint ? height : null,
    heightFrom: "ellipsoid",
    standOff: said.what === "feature" ? numberOf("standOff", "stand-off") : null,
    rule,
    number: said.what === "firing-point" ? numberOf("number", "number") : null,
    accuracy: said.what === "feature" ? null : numberOf("accuracy", "accuracy"),
    bearing,
    note: said.what === "control-point" ? wordsOf(raw.marks.note).trim().slice(0, 500) : "",
    warnings,
  };
}

function withGeometry(
  item: SiteItem,
  part: Part,
  site: ReadOptions["site"],
  swap: boolean,
  from: HeightFrom,
): SiteItem {
  const lines = positionsOf(part, swap);
  const problem = problemOf(part.type, lines) ?? farProblem(lines, site);
  if (lines.flat().length <= LIMITS.corners) item.geometry = repaired(part.type, lines, item);
  if (problem) return { ...item, geometry: positionsUsable(lines) ? item.geometry : null, problem };
  if (item.geometry === null) return { ...item, problem: NOTHING };
  takeHeight(item, lines, from);
  const checked = featureGeometrySchema.safeParse(item.geometry);
  if (!checked.success) {
    const [issue] = checked.error.issues;
    const ring =
      part.type === "Polygon" && Number(issue?.path[1]) > 0 ? `Hole ${issue?.path[1] as number}: ` : "";
    return { ...item, problem: `${ring}${issue?.message ?? NOTHING}` };
  }
  if (JSON.stringify(checked.data) !== JSON.stringify(item.geometry))
    item.warnings.push("Its outline ran the other way round and was turned.");
  item.geometry = checked.data;
  return fitted(item);
}

const positionsUsable = (lines: readonly RawPosition[][]) =>
  lines.length > 0 && lines.flat().every((position) => positionProblem(position, "") === null);

function problemOf(type: PartType, lines: readonly RawPosition[][]): string | null {
  const corners = Math.max(0, ...lines.map(({ length }) => length));
  if (corners === 0) return NOTHING;
  if (corners > LIMITS.corners + 1)
    return `This ${TITLES[type]} has ${corners} corners; at most ${LIMITS.corners} are kept. Thin it out and export it again.`;
  for (const line of lines)
    for (const [index, position] of line.entries()) {
      const problem = positionProblem(position, type === "Point" ? "This point" : `Corner ${index + 1}`);
      if (problem) return problem;
    }
  return null;
}

function farProblem(lines: readonly RawPosition[][], site: ReadOptions["site"]): string | null {
  const far = lines.flat().find((position) => !isNear(site, position));
  if (!far) return null;
  const [x, y] = far;
  if (x === 0 && y === 0)
    return "It lies at latitude 0, longitude 0, which mostly stands for a missing position.";
  const kilometres = Math.round(distanceTo(site, far) / 1000);
  return isNear(site, [y, x])
    ? `It lies ${kilometres} km from the site's middle, and at the site with latitude and longitude exchanged: they are swapped.`
    : `It lies ${kilometres} km from the site's middle. Check its coordinates, and whether it belongs to this site.`;
}

/** Repeated corners dropped, outlines closed, longitudes brought within ±180; what was done is said. */
function repaired(type: PartType, lines: readonly RawPosition[][], item: SiteItem): FeatureGeometry | null {
  const flat = lines.map((line) =>
    line.map((position): [number, number] => wrapped(position).slice(0, 2) as [number, number]),
  );
  if (lines.flat().some(([x]) => Math.abs(x) > 180))
    item.warnings.push("Its longitudes were brought within ±180°.");
  const [first] = flat;
  if (!first) return null;
  if (type === "Point") return first[0] ? { type, coordinates: first[0] } : null;
  const same = (a?: [number, number], b?: [number, number]) => a?.[0] === b?.[0] && a?.[1] === b?.[1];
  const once = flat.map((line) =>
    line.filter((position, index) => index === 0 || !same(position, line[index - 1])),
  );
  if (once.some((line, index) => line.length < (flat[index]?.length ?? 0)))
    item.warnings.push("Corners that stood twice in a row are taken once.");
  if (type === "LineString") return { type, coordinates: once[0] ?? [] };
  const closed = once.map((ring) => (same(ring[0], ring.at(-1)) || !ring[0] ? ring : [...ring, ring[0]]));
  if (closed.some((ring, index) => ring.length > (once[index]?.length ?? 0)))
    item.warnings.push("Its outline was open and was closed.");
  return { type, coordinates: closed };
}

/** Heights are kept of points; the file's own mark comes before the third coordinate. */
function takeHeight(item: SiteItem, lines: readonly RawPosition[][], from: HeightFrom): void {
  const third = lines[0]?.[0]?.[2];
  if (item.geometry?.type !== "Point" || item.height !== null || third === undefined) return;
  if (!Number.isFinite(third)) item.warnings.push("Its height is no number and is left out.");
  else Object.assign(item, { height: third, heightFrom: from });
}

/** Whether what it is said to be can have this shape; a kind that cannot is left for a person to choose. */
function fitted(item: SiteItem): SiteItem {
  const { geometry, what, kind } = item;
  if (!geometry) return item;
  if (what !== "feature") {
    if (geometry.type === "Point")
      return what === "spot-height" && item.height === null
        ? { ...item, problem: "A spot height needs a height, and this point has none." }
        : item;
    item.warnings.push(`It is called a ${what.replace("-", " ")} but is no point: choose what it is.`);
    return { ...item, what: "feature", kind: null, number: null, accuracy: null, bearing: null, note: "" };
  }
  if (kind === null || featureKind(kind).geometries.includes(geometry.type)) return item;
  const area = closedLine(geometry);
  if (area && featureKind(kind).geometries.includes("Polygon")) {
    item.warnings.push("The line was closed to an area.");
    return { ...item, geometry: area };
  }
  item.warnings.push(
    `A ${featureKind(kind).title.toLowerCase()} cannot be a ${TITLES[geometry.type]}: choose what it is.`,
  );
  return { ...item, kind: null };
}
