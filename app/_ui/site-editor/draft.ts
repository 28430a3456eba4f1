/**
 * What is being laid out and is not saved yet: what it is, its fields, its drawing. Kept in the browser, so that a
 * reload, a call or an empty battery loses nothing.
 */
import { z } from "zod";
import type { ContestOverview } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { FEATURE_KINDS, featureKind } from "@/lib/zones/kinds";
import {
  beginDrawing,
  type DrawAction,
  type Drawing,
  draw,
  drawnOf,
  geometryOf,
  nothingDrawn,
  type Shape,
} from "../map/edit/model";
import { type Quantity, quantityOf, quantityProblem } from "../quantity-field";

/** What is no site feature, but is laid out on the same map. */
export const POINT_ITEMS = {
  "firing-point": "Firing point",
  "control-point": "Control point",
  "spot-height": "Height of the ground",
} as const;
export type PointItem = keyof typeof POINT_ITEMS;

export const isPointItem = (item: string): item is PointItem => item in POINT_ITEMS;
export const itemTitle = (item: string): string =>
  isPointItem(item) ? POINT_ITEMS[item] : (FEATURE_KINDS.find(({ kind }) => kind === item)?.title ?? item);

const SHAPES = { Point: "point", LineString: "line", Polygon: "area" } as const;

/** The shapes that an item may have, the usual one first. */
export const shapesOf = (item: string): Shape[] =>
  isPointItem(item) ? ["point"] : featureKind(item).geometries.map((geometry) => SHAPES[geometry]);

const quantity = z.object({ text: z.string(), value: z.number().nullable() });
const fields = z.object({
  name: z.string(),
  number: z.string(),
  note: z.string(),
  /** "" takes the kind's. */
  rule: z.string(),
  standOff: quantity,
  height: quantity,
  accuracy: quantity,
  /** Of a firing point, where a site has one machine. */
  bearing: quantity.default({ text: "", value: null }),
});
const corner = z.object({ latitude: z.number(), longitude: z.number() });
const drawn = z.object({ shape: z.enum(["point", "line", "area"]), rings: z.array(z.array(corner)).min(1) });
const draftSchema = z.object({
  item: z.string().refine((item) => isPointItem(item) || FEATURE_KINDS.some(({ kind }) => kind === item)),
  /** Of what is changed; null for something new. */
  id: z.string().nullable(),
  /** What it was when its change began, as text. */
  base: z.string(),
  fields,
  drawing: z.object({
    now: drawn,
    past: z.array(drawn),
    future: z.array(drawn),
    ring: z.number(),
    picked: z.number().nullable(),
    adding: z.boolean(),
  }),
});
export type Draft = Omit<z.infer<typeof draftSchema>, "drawing"> & { drawing: Drawing };
export type Fields = Draft["fields"];

const nothing: Quantity = { text: "", value: null };
const NO_FIELDS: Fields = {
  name: "",
  number: "",
  note: "",
  rule: "",
  standOff: nothing,
  height: nothing,
  accuracy: nothing,
  bearing: nothing,
};

export function newDraft(item: string): Draft {
  const drawing = beginDrawing(nothingDrawn(shapesOf(item)[0] ?? "point"), true);
  return { item, id: null, base: "", fields: NO_FIELDS, drawing };
}

/** What is laid out. */
export type LaidOut = Pick<ContestOverview, "features" | "controlPoints" | "spotHeights"> & {
  firingPoints: readonly LaidPoint[];
};
/** `bearing`: of the one machine that stands on it, where the site has one. */
type LaidPoint = ContestOverview["firingPoints"][number] & { bearing?: number };

/** The thing that a draft changes, as it is now. */
export function subjectOf({ item, id }: Pick<Draft, "item" | "id">, site: LaidOut) {
  const all =
    item === "firing-point"
      ? site.firingPoints
      : item === "control-point"
        ? site.controlPoints
        : item === "spot-height"
          ? site.spotHeights
          : site.features;
  return all.find((each) => each.id === id) ?? null;
}

/** A draft that begins with what is there. */
export function draftOf(item: string, id: string, site: LaidOut, system: UnitSystem): Draft | null {
  const subject = subjectOf({ item, id }, site);
  if (!subject) return null;
  const {
    name = "",
    number = "",
    note = "",
    rule,
    standOff,
    height,
    heightGiven = true,
    accuracy,
    bearing,
    latitude,
    longitude,
    geometry,
  } = subject as Partial<
    ContestOverview["features"][number] & LaidPoint & ContestOverview["controlPoints"][number]
  >;
  const place = geometry ?? {
    type: "Point",
    coordinates: [longitude ?? 0, latitude ?? 0] as [number, number],
  };
  const shape = drawnOf(place);
  return {
    item,
    id,
    base: JSON.stringify(subject),
    fields: {
      name,
      number: String(number),
      note,
      rule: rule ?? "",
      standOff: quantityOf(standOff, "distance", system),
      height: quantityOf(heightGiven ? height : undefined, "distance", system),
      accuracy: quantityOf(accuracy, "distance", system),
      bearing: quantityOf(bearing, "angle", system),
    },
    drawing: beginDrawing(shape, shape.shape === "point"),
  };
}

export const redrawn = (draft: Draft, action: DrawAction): Draft => ({
  ...draft,
  drawing: draw(draft.drawing, action),
});

/** What is to be kept: as the contract of its kind takes it, without what was left empty. */
export interface LaidRequest {
  item: string;
  /** Of what is changed; null for something new. */
  id: string | null;
  body: Record<string, unknown>;
}

/** `aims`: firing points have a bearing. A string says what is missing. */
export function requestOf(draft: Draft, system: UnitSystem, aims = false): LaidRequest | string {
  const { item, id, fields } = draft;
  const shape = geometryOf(draft.drawing.now);
  if (!shape.ok) return `${itemTitle(item)}: ${shape.message}`;
  const { geometry } = shape;
  const wrong = (name: "standOff" | "height" | "accuracy", words: string, optional = true) =>
    quantityProblem(words, fields[name], "distance", system, optional);

  if (!isPointItem(item)) {
    const problem = wrong("standOff", "Stand-off");
    if (problem) return problem;
    const { name } = fields;
    const rule = fields.rule === "" ? null : fields.rule;
    const body = { name, geometry, standOff: fields.standOff.value, rule };
    return { item, id, body: id ? body : { kind: item, ...body } };
  }
  if (geometry.type !== "Point") return `${itemTitle(item)}: place it on the map.`;
  const [longitude, latitude] = geometry.coordinates;
  const isFiringPoint = item === "firing-point";
  const problem =
    wrong("height", "Height", item !== "spot-height") ??
    wrong("accuracy", "Accuracy", !isFiringPoint) ??
    (isFiringPoint && aims ? quantityProblem("Bearing", fields.bearing, "angle", system) : null);
  if (problem) return problem;
  const place = { latitude, longitude, ...given("height", fields.height.value) };
  if (item === "spot-height") return { item, id, body: place };
  const accuracy = given("accuracy", fields.accuracy.value);
  if (item === "control-point") {
    const { name, note } = fields;
    return { item, id, body: { name, note, ...place, ...accuracy } };
  }
  const number = fields.number.trim() === "" ? null : Number(fields.number);
  const numbered = id ? {} : given("number", number);
  const aim = aims ? given("bearing", fields.bearing.value) : {};
  return { item, id, body: { name: fields.name, ...place, ...accuracy, ...numbered, ...aim } };
}

const given = (name: string, value: number | null) => (value === null ? {} : { [name]: value });

// ---------------------------------------------------------------- through a reload

/** `site`: of a contest its slug. */
const storageKey = (site: string) => `fairthrow:site-draft:${site}`;
/** Steps of undo that are kept; the drawing itself always is. */
const KEPT = 20;

export function loadDraft(site: string): Draft | null {
  try {
    const found = draftSchema.safeParse(JSON.parse(localStorage.getItem(storageKey(site)) ?? "null"));
    return found.success ? found.data : null;
  } catch {
    return null;
  }
}

export function keepDraft(site: string, draft: Draft | null): void {
  try {
    if (!draft) {
      localStorage.removeItem(storageKey(site));
      return;
    }
    const { drawing } = draft;
    const past = drawing.past.slice(-KEPT);
    const future = drawing.future.slice(0, KEPT);
    localStorage.setItem(
      storageKey(site),
      JSON.stringify({ ...draft, drawing: { ...drawing, past, future } }),
    );
  } catch {
    // A browser that stores nothing: the page still asks before it is left.
  }
}
