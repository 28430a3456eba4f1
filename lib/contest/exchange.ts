/** Bringing a site in from a file: first a preview that changes nothing, then what was chosen, all or nothing. */
import {
  type ImportAnswer,
  type ImportItem,
  type ImportPreview,
  importPreviewQuery,
  importRequest,
  type PreviewItem,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { FileRefusal, type ReadOptions, type SiteFile, siteFileInSteps } from "../exchange";
import { contestOverview } from "./contests";
import { invalid, parse, Refusal, taken, within } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { fitting, mustBeNear, mustKeepRule } from "./fitting";
import { alreadyThere, previewOf, type Seen } from "./import-preview";
import { contestToLayOut } from "./layout";
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
  const there = alreadyThere(await contestOverview(db, slug));
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

/** Adds what was chosen of a preview: each by the rules of its own route, all in one transaction or none. */
export async function importSite(call: Call, slug: string, body: unknown): Promise<Reply<ImportAnswer>> {
  const { items } = parse(importRequest, body);
  const contest = await contestToLayOut(call, slug);
  const fitted = items.map((item, index) => within(`items.${index}`, () => fittedItem(contest, item)));
  const request = { act: "import", contest: contest.id, items: fitted };
  const written = committed(call, contest.id, request, (tx, book) => insertAll(tx, book, contest, fitted));
  return thenSheets(call.db, contest.id, written);
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
