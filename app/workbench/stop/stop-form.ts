/** What the stop designer asks for, and how it becomes the input of the calculation. Pure. */
import { type Issue, type IssueField, issueSentence, leafIssues } from "@/app/_ui/issue-words";
import { type Quantity, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Breakage, type HazardRequest, type StopInput, stopInputSchema } from "@/lib/throw";
import { type Source, sourcesOf, TYPED } from "./source";
import { type Asked, QUANTITIES, type QuantityName } from "./stop-asks";

export interface CurvePoint {
  stroke: Quantity;
  force: Quantity;
}

export interface StopForm {
  system: UnitSystem;
  /** "" takes whatever is the largest. */
  source: string;
  kind: StopInput["kind"];
  limit: StopInput["limit"]["by"];
  size: StopInput["bolt"]["size"];
  class: StopInput["bolt"]["class"];
  planes: "1" | "2";
  quantities: Readonly<Record<QuantityName, Quantity>>;
  curve: readonly CurvePoint[];
}

const POINTS = [
  [0, 0],
  [0.1, 8000],
  [0.3, 15000],
] as const;

export const EMPTY: Quantity = { text: "", value: null };

export const startingStop = (system: UnitSystem): StopForm => ({
  system,
  source: "",
  kind: "crush",
  limit: "stroke",
  size: "M12",
  class: "8.8",
  planes: "1",
  quantities: Object.fromEntries(
    Object.entries(QUANTITIES).map(([name, { dimension, start }]: [string, Asked]) => [
      name,
      quantityOf(start, dimension, system),
    ]),
  ) as Record<QuantityName, Quantity>,
  curve: POINTS.map(([stroke, force]) => ({
    stroke: quantityOf(stroke, "length", system),
    force: quantityOf(force, "force", system),
  })),
});

/** The one that counts, null for a typed energy. */
export function sourceOf({ source }: StopForm, found: Breakage | null): Source | null {
  if (source === TYPED) return null;
  const sources = sourcesOf(found);
  return sources.find(({ value }) => value === source) ?? sources[0] ?? null;
}

/** What is asked for as the form stands. */
export function asksFor(form: StopForm, found: Breakage | null): QuantityName[] {
  const source = sourceOf(form, found);
  const own = source && found?.stop;
  return [
    ...(source ? [] : (["energy"] as const)),
    ...(own ? [] : (["movingMass", "drive"] as const)),
    ...(own && own.of === "arm" ? (["radius"] as const) : []),
    form.limit,
    ...(form.kind === "curve" ? [] : (["efficiency"] as const)),
    "shearStrength",
    "designFactor",
    "frameMass",
    "footprint",
    "friction",
    "height",
    "dropMass",
  ];
}

export type StopErrors = Readonly<Record<string, string>>;
export type StopReading = { ok: true; input: StopInput } | { ok: false; errors: StopErrors };

export function readStop(form: StopForm, found: Breakage | null, request: HazardRequest | null): StopReading {
  const errors: Record<string, string> = {};
  const names = asksFor(form, found);
  for (const name of names) {
    const { label, dimension, optional } = QUANTITIES[name];
    const problem = quantityProblem(label, form.quantities[name], dimension, form.system, optional);
    if (problem) errors[name] = problem;
  }
  const value = (name: QuantityName) =>
    names.includes(name) ? (form.quantities[name].value ?? undefined) : undefined;
  const points = form.curve.map(({ stroke, force }) => ({ stroke: stroke.value, force: force.value }));
  if (form.kind === "curve" && points.some(({ stroke, force }) => stroke === null || force === null))
    errors.curve = "Measured force: give way and force of every point, or take the point away.";
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const parsed = stopInputSchema.safeParse({
    ...arriving(form, found, request, value),
    kind: form.kind,
    efficiency: value("efficiency"),
    ...(form.kind === "curve" ? { curve: points } : {}),
    limit: { by: form.limit, [form.limit]: value(form.limit) },
    bolt: {
      size: form.size,
      class: form.class,
      planes: Number(form.planes),
      designFactor: value("designFactor"),
      shearStrength: value("shearStrength"),
    },
    frame: frameOf(request, value),
    drop: value("dropMass") === undefined ? undefined : { mass: value("dropMass") },
    gravity: found?.gravity,
  });
  if (parsed.success) return { ok: true, input: parsed.data };
  for (const issue of leafIssues(parsed.error.issues)) {
    const name = fieldOf(issue.path.map(String));
    const told: Asked | undefined = QUANTITIES[name as QuantityName];
    const place = told ?? (name === "curve" ? curvePlace(issue) : { label: "The stop" });
    errors[name] ??= issueSentence(issue, place, form.system);
  }
  return { ok: false, errors };
}

/** Of a measured point, counted as the table shows them. */
function curvePlace({ path }: Issue): IssueField {
  const [, row, column] = path;
  if (typeof row !== "number") return { label: "Measured force" };
  return column === "stroke"
    ? { label: `Measured force, way of point ${row + 1}`, dimension: "length" }
    : { label: `Measured force, point ${row + 1}`, dimension: "force" };
}

type Value = (name: QuantityName) => number | undefined;

/** Energy, mass and drive as they are felt where the stop is struck. */
function arriving(form: StopForm, found: Breakage | null, request: HazardRequest | null, value: Value) {
  const source = sourceOf(form, found);
  const typed = { energy: value("energy"), movingMass: value("movingMass"), drive: value("drive") };
  if (!source || !found) return typed;
  const { stop } = found;
  if (!stop) return { ...typed, energy: source.energy };
  const radius = stop.of === "arm" ? (value("radius") ?? usualRadius(request)) : 1;
  return {
    energy: source.energy,
    movingMass: stop.inertia / radius ** 2,
    drive: Math.max(0, stop.drive / radius),
  };
}

/** Half the arm, m. */
export const usualRadius = (request: HazardRequest | null): number =>
  ((request?.machine as { armLength?: number } | undefined)?.armLength ?? 2) / 2;

/** The frame as typed here, else as declared with the machine; undefined unless all of it is known. */
function frameOf(request: HazardRequest | null, value: Value) {
  const declared = request?.strengths?.frame;
  const machine = request?.machine as
    | {
        base?: "fixed" | { frameMass?: number; footprint?: number };
        trackHeight?: number;
        pivotHeight?: number;
      }
    | undefined;
  const base = typeof machine?.base === "object" ? machine.base : undefined;
  const mass = value("frameMass") ?? declared?.mass ?? base?.frameMass;
  const footprint = value("footprint") ?? declared?.footprint ?? base?.footprint;
  const height = value("height") ?? machine?.trackHeight ?? machine?.pivotHeight;
  if (mass === undefined || footprint === undefined || height === undefined) return undefined;
  return { mass, footprint, height, friction: value("friction") ?? declared?.friction };
}

const FIELDS: Readonly<Record<string, QuantityName>> = {
  "limit.stroke": "stroke",
  "limit.force": "force",
  "limit.deceleration": "deceleration",
  "bolt.shearStrength": "shearStrength",
  "bolt.designFactor": "designFactor",
  "frame.mass": "frameMass",
  "frame.footprint": "footprint",
  "frame.friction": "friction",
  "frame.height": "height",
  "drop.mass": "dropMass",
};

function fieldOf(path: readonly string[]): string {
  return FIELDS[path.join(".")] ?? path[0] ?? "";
}
