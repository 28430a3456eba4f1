/** What is done to a yard: laid out, taken away, brought in from a file. Refused as a contest refuses it. Pure. */
import { z } from "zod";
import { type LaidRequest, POINT_ITEMS } from "@/app/_ui/site-editor/draft";
import {
  bearingSchema,
  controlPointRequest,
  featureRequest,
  firingPointRequest,
  type ImportAnswer,
  importRequest,
  spotHeightRequest,
} from "@/lib/api/contracts";
import { invalid, parse, within } from "@/lib/contest/errors";
import { fitting, mustBeNear, mustKeepRule } from "@/lib/contest/fitting";
import { MOST_PLACES, type Yard, type YardPoint } from "./yard";

const LISTS = {
  "firing-point": "firingPoints",
  "control-point": "controlPoints",
  "spot-height": "spotHeights",
} as const;
const listOf = (item: string) => (item in POINT_ITEMS ? LISTS[item as keyof typeof LISTS] : "features");

/** In place of the one with its id, else at the end. */
function put<T extends { id: string }>(all: readonly T[], one: T): T[] {
  const known = all.some(({ id }) => id === one.id);
  if (!known && all.length >= MOST_PLACES)
    throw invalid("", `A yard holds at most ${MOST_PLACES} places of one sort. Take some away first.`);
  return known ? all.map((each) => (each.id === one.id ? one : each)) : [...all, one];
}

const firingPointOfYard = firingPointRequest.extend({ bearing: bearingSchema.nullable().default(null) });

/** The yard with something new or changed on it. Throws Refusal with the fields that are wrong. */
export function laidOut(
  yard: Yard,
  { item, id: known, body }: LaidRequest,
  newId: () => string,
): { yard: Yard; called: { name?: string; number?: number } } {
  const id = known ?? newId();
  switch (item) {
    case "firing-point": {
      const asked = parse(firingPointOfYard, body);
      mustBeNear(yard, asked, "latitude");
      const before = yard.firingPoints.find((each) => each.id === id);
      const number = before?.number ?? asked.number ?? nextNumber(yard);
      const point: YardPoint = { ...asked, id, number, height: asked.height ?? null };
      mustBeFree(yard, point);
      return {
        yard: { ...yard, firingPoints: put(yard.firingPoints, point), chosen: before ? yard.chosen : id },
        called: { number },
      };
    }
    case "control-point": {
      const asked = parse(controlPointRequest, body);
      mustBeNear(yard, asked, "latitude");
      mustBeUnlike(yard, { ...asked, id });
      const point = { ...asked, id, height: asked.height ?? null };
      return {
        yard: { ...yard, controlPoints: put(yard.controlPoints, point) },
        called: { name: asked.name },
      };
    }
    case "spot-height": {
      const asked = parse(spotHeightRequest, body);
      mustBeNear(yard, asked, "latitude");
      return { yard: { ...yard, spotHeights: put(yard.spotHeights, { ...asked, id }) }, called: {} };
    }
    default: {
      const asked = parse(featureRequest, { kind: item, ...body });
      mustKeepRule(asked.kind, asked.rule);
      const geometry = fitting(yard, asked.kind, asked.geometry);
      return {
        yard: { ...yard, features: put(yard.features, { ...asked, id, geometry }) },
        called: { name: asked.name },
      };
    }
  }
}

const nextNumber = ({ firingPoints }: Yard): number =>
  Math.max(0, ...firingPoints.map(({ number }) => number)) + 1;

function mustBeFree({ firingPoints }: Yard, { id, number }: YardPoint): void {
  if (firingPoints.some((other) => other.number === number && other.id !== id))
    throw invalid("number", `There is a firing point ${number} already.`);
}

function mustBeUnlike({ controlPoints }: Yard, { id, name }: { id: string; name: string }): void {
  if (controlPoints.some((other) => other.name === name && other.id !== id))
    throw invalid("name", `There is a control point ${name} already. Give this one another name.`);
}

export function takenAway(yard: Yard, item: string, id: string): Yard {
  const list = listOf(item);
  const left = { ...yard, [list]: (yard[list] as { id: string }[]).filter((each) => each.id !== id) };
  return yard.chosen === id ? { ...left, chosen: null } : left;
}

/** The chosen firing point, or another bearing of it. Throws Refusal on a bearing that is none. */
export function aimed(yard: Yard, pointId: string, bearing: number | null): Yard {
  const given = bearing === null ? null : parse(z.object({ bearing: bearingSchema }), { bearing }).bearing;
  return {
    ...yard,
    chosen: pointId,
    firingPoints: yard.firingPoints.map((point) =>
      point.id === pointId ? { ...point, bearing: given ?? point.bearing } : point,
    ),
  };
}

/**
 * All that was chosen of a file, or nothing. `bearings`: of each item, where the file gives one. Throws Refusal whose
 * fields begin with `items.` and the item's number.
 */
export function broughtIn(
  yard: Yard,
  chosen: readonly unknown[],
  bearings: readonly (number | null)[],
  newId: () => string,
): { yard: Yard; answer: ImportAnswer } {
  const { items } = parse(importRequest, { items: chosen });
  const answer: ImportAnswer = { features: 0, firingPoints: 0, controlPoints: 0, spotHeights: 0 };
  let now = yard;
  // Numbers that the file gives are kept from those that it leaves open.
  const order = [...items.keys()].sort(
    (a, b) => Number(hasNumber(items[b])) - Number(hasNumber(items[a])) || a - b,
  );
  for (const index of order) {
    const { what, ...body } = items[index] as (typeof items)[number];
    const item = what === "feature" ? (body as { kind: string }).kind : what;
    const aim = what === "firing-point" ? { bearing: bearings[index] ?? null } : {};
    now = within(`items.${index}`, () =>
      laidOut(now, { item, id: null, body: { ...body, ...aim } }, newId),
    ).yard;
    answer[listOf(item)]++;
  }
  return { yard: { ...now, chosen: yard.chosen ?? now.firingPoints[0]?.id ?? null }, answer };
}

const hasNumber = (item: { what: string; number?: unknown } | undefined) => item?.number !== undefined;
