/** Bringing a site in from a file: first a preview that changes nothing, then what was chosen, all or nothing. */
import { check } from "../api/check";
import {
  type ContestOverview,
  HANDHELD,
  type ImportAnswer,
  type ImportItem,
  type ImportPreview,
  importItem,
  importItemOf,
  importPreviewQuery,
  importRequest,
  type PreviewItem,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { FileRefusal, type ReadOptions, type SiteFile, type SiteItem, siteFileInSteps } from "../exchange";
import { contestOverview } from "./contests";
import { invalid, isRefusal, parse, Refusal, taken } from "./errors";
import { fitting, mustKeepRule } from "./features";
import { type ContestRow, contestBySlug } from "./find";
import { contestToLayOut, mustBeNear } from "./layout";
import { type Asker, mustBeAllowed } from "./roles";
import { CHUNK, newId, type OpenScorebook, type ScorebookDraft } from "./scorebook";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

/** What is in a file, what was repaired, what cannot be used, and what is there already. Changes nothing. */
export async function previewImport(
  db: Database,
  actor: Asker,
  slug: string,
  bytes: Uint8Array,
  query: unknown,
): Promise<ImportPreview> {
  const { name, swap } = parse(importPreviewQuery, query);
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "lay out divisions, entrants, firing points and site features", contest.id);
  const othersTurn = turns();
  const file = await readPatiently(bytes, { fileName: name, site: contest, swap: swap === "1" }, othersTurn);
  const site = await contestOverview(db, slug);
  const there: There = {
    ...site,
    alike: new Map(),
    numbers: new Set(site.firingPoints.map(({ number }) => number)),
    names: new Set(site.controlPoints.map((point) => point.name)),
  };
  for (const feature of site.features.filter(({ retired }) => !retired)) {
    const key = likeness(feature);
    there.alike.set(key, [...(there.alike.get(key) ?? []), feature]);
  }
  const items: PreviewItem[] = [];
  for (const [index, item] of file.items.entries()) {
    items.push(previewOf(item, index, there));
    await othersTurn();
  }
  return { format: file.format, notes: file.notes, swapHelps: file.swapHelps, items };
}

/** ms of reading between which others get their turn: a hold must not wait for outlines. */
const TURN = 15;

function turns(): () => Promise<void> {
  let began = performance.now();
  return async () => {
    if (performance.now() - began < TURN) return;
    await new Promise((resolve) => setImmediate(resolve));
    began = performance.now();
  };
}

async function readPatiently(
  bytes: Uint8Array,
  options: ReadOptions,
  othersTurn: () => Promise<void>,
): Promise<SiteFile> {
  try {
    const steps = siteFileInSteps(bytes, options);
    for (;;) {
      const { done, value } = steps.next();
      if (done) return value;
      await othersTurn();
    }
  } catch (error) {
    if (error instanceof FileRefusal)
      throw new Refusal(422, "file", error.message, [{ field: "file", message: error.message }]);
    throw error;
  }
}

/** What is on the site already, and what items before this one take. */
type There = Pick<ContestOverview, "firingPoints" | "controlPoints" | "spotHeights"> &
  Seen & { alike: Map<string, ContestOverview["features"]> };

const likeness = ({ kind, name }: { kind: string | null; name: string }) => `${kind} ${name}`;

interface Seen {
  numbers: Set<number>;
  names: Set<string>;
}

/** An item with what it would meet on the site, and what its own route would say of it. */
function previewOf(item: SiteItem, index: number, there: There): PreviewItem {
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

/** Adds what was chosen of a preview: each by the rules of its own route, all in one transaction or none. */
export async function importSite(call: Call, slug: string, body: unknown): Promise<Reply<ImportAnswer>> {
  const { items } = parse(importRequest, body);
  const contest = await contestToLayOut(call, slug);
  const fitted = items.map((item, index) => within(`items.${index}`, () => fittedItem(contest, item)));
  const request = { act: "import", contest: contest.id, items: fitted };
  const written = committed(call, contest.id, request, (tx, book) => insertAll(tx, book, contest, fitted));
  return thenSheets(call.db, contest.id, written);
}

/** Runs a check whose refusals name fields of one item. */
function within<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!isRefusal(error)) throw error;
    const errors = error.errors.map(({ field, message }) => ({ field: `${path}.${field}`, message }));
    const [first] = errors;
    throw new Refusal(
      error.status,
      error.code,
      first ? `${first.field}: ${first.message}` : error.detail,
      errors,
    );
  }
}

function fittedItem(contest: ContestRow, item: ImportItem): ImportItem {
  if (item.what !== "feature") {
    mustBeNear(contest, item, "latitude");
    return item;
  }
  mustKeepRule(item.kind, item.rule);
  return { ...item, geometry: fitting(contest, item.kind, item.geometry) };
}

async function insertAll(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contest: ContestRow,
  items: readonly ImportItem[],
): Promise<ImportAnswer> {
  const where = { contestId: contest.id };
  const points = await tx.firingPoint.findMany({ where, select: { number: true } });
  const pegs = await tx.controlPoint.findMany({ where, select: { name: true } });
  const { features, firingPoints, controlPoints, spotHeights, entries } = rowsOf(contest, items, {
    numbers: new Set(points.map(({ number }) => number)),
    names: new Set(pegs.map(({ name }) => name)),
  });
  await inChunks(features, (data) => tx.siteFeature.createMany({ data }));
  await inChunks(firingPoints, (data) => tx.firingPoint.createMany({ data }));
  await inChunks(controlPoints, (data) => tx.controlPoint.createMany({ data }));
  await inChunks(spotHeights, (data) => tx.spotHeight.createMany({ data }));
  await book.appendAll(entries);
  return {
    features: features.length,
    firingPoints: firingPoints.length,
    controlPoints: controlPoints.length,
    spotHeights: spotHeights.length,
  };
}

async function inChunks<T>(rows: readonly T[], write: (chunk: T[]) => Promise<unknown>): Promise<void> {
  for (let at = 0; at < rows.length; at += CHUNK) await write(rows.slice(at, at + CHUNK));
}

/** The rows of every table, with the entries as the items' own routes make them. Throws 409 where something is taken. */
function rowsOf(contest: ContestRow, items: readonly ImportItem[], { numbers, names }: Seen) {
  const contestId = contest.id;
  // Numbers that the file gives are kept from those that it leaves open.
  for (const [index, item] of items.entries()) {
    if (item.what !== "firing-point" || item.number === undefined) continue;
    if (numbers.has(item.number))
      throw taken(`items.${index}.number`, `There is a firing point ${item.number} already.`);
    numbers.add(item.number);
  }
  let last = Math.max(0, ...numbers);
  const numberOf = (index: number): number => {
    if (++last > MOST_POINTS)
      throw invalid(`items.${index}.number`, `A firing point's number is at most ${MOST_POINTS}.`);
    return last;
  };
  const entries: ScorebookDraft[] = [];
  const enter = (act: ScorebookDraft["act"], details: ScorebookDraft["details"]) => {
    const id = newId();
    entries.push({ act, subjectId: id, details });
    return { id, contestId };
  };
  return {
    entries,
    features: items.flatMap((item) => {
      if (item.what !== "feature") return [];
      const { what: _, geometry, ...plain } = item;
      const own = enter("feature-added", { ...plain, geometry });
      return { ...own, ...plain, geometry: JSON.stringify(geometry) };
    }),
    firingPoints: items.flatMap((item, index) => {
      if (item.what !== "firing-point") return [];
      const { name, latitude, longitude, height = contest.height, accuracy } = item;
      const place = { number: item.number ?? numberOf(index), latitude, longitude, height, accuracy };
      return {
        ...enter("firing-point-added", place),
        ...place,
        name,
        heightGiven: item.height !== undefined,
      };
    }),
    controlPoints: items.flatMap((item, index) => {
      if (item.what !== "control-point") return [];
      const { name, latitude, longitude, height = contest.height, accuracy, note } = item;
      if (names.has(name))
        throw taken(
          `items.${index}.name`,
          `There is a control point ${name} already. Give this one another.`,
        );
      names.add(name);
      const peg = { name, latitude, longitude, height, accuracy };
      return { ...enter("control-point-added", peg), ...peg, note, heightGiven: item.height !== undefined };
    }),
    spotHeights: items.flatMap((item) => {
      if (item.what !== "spot-height") return [];
      const { what: _, ...spot } = item;
      return { ...enter("spot-height-added", spot), ...spot };
    }),
  };
}

const MOST_POINTS = 999;
