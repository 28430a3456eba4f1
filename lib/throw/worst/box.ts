/**
 * The box of machines that a declaration stands for: every parameter within its tolerance, the projectile within
 * the contest's rule, the frame held or rolling. Points of it are vectors of −1 to 1, one number a parameter.
 */
import type { HazardRequest } from "../contracts/request";
import { isAskedFor } from "../machines/kind";
import { machineKind } from "../machines/registry";
import type { Frame } from "../setup";

/** Of the projectile's mass and diameter as shares, where nothing is declared. Common practice, no source. */
export const PROJECTILE_TOLERANCE = 0.02;

/** One number that may differ from what was declared. */
export interface BoxSide {
  name: string;
  of: "machine" | "projectile";
  declared: number;
  low: number;
  high: number;
}

/** What is thrown: as declared (within rule and tolerances), a piece of it, or something denser in its place. */
export type Load = "declared" | "piece" | "substitute";

export interface Box {
  request: HazardRequest;
  load: Load;
  frame: Frame;
  sides: readonly BoxSide[];
}

/** Held, and rolling too where the base has wheels. */
export function framesOf({ machine }: Pick<HazardRequest, "machine">): Frame[] {
  const { base } = machine as { base?: unknown };
  return base === undefined || base === "fixed" ? ["held"] : ["held", "rolling"];
}

/** The frame that the throw as meant stands on: rolling where the base has wheels. */
export const meantFrame = (request: Pick<HazardRequest, "machine">): Frame =>
  framesOf(request).at(-1) ?? "held";

/**
 * The boxes that must all be searched for one request: every load that the rule allows on every frame.
 * @param wide parameters that vary by a percent at least, unless their tolerance is an explicit 0
 */
export function boxesOf(request: HazardRequest, wide: readonly string[] = []): Box[] {
  const rule = request.policy?.projectiles;
  const loads: Load[] = ["declared"];
  if (rule?.pieceShare !== undefined && rule.pieceShare < 1) loads.push("piece");
  if (rule?.substituteDensity !== undefined) loads.push("substitute");
  return framesOf(request).flatMap((frame) => loads.map((load) => boxOf(request, load, frame, wide)));
}

function boxOf(request: HazardRequest, load: Load, frame: Frame, wide: readonly string[]): Box {
  const { machine, based } = withDerived(request);
  const sides: BoxSide[] = [];
  const { parameters, choices, schema } = machineKind(request.machine.kind);
  for (const parameter of parameters) {
    const { name, tolerance, onlyNominal } = parameter;
    const declared = machine[name];
    if (typeof declared !== "number" || onlyNominal || !isAskedFor(parameter, choices, machine)) continue;
    const plus = widened(toleranceOf(request, name, declared, tolerance), name, declared, wide);
    if (!(plus > 0)) continue;
    const valid = (value: number) => schema.safeParse({ ...machine, [name]: value }).success;
    const low = lastValid(valid, declared, declared - plus);
    const high = lastValid(valid, declared, declared + plus);
    if (high > low) sides.push({ name, of: "machine", declared, low, high });
  }
  return { request: based, load, frame, sides: [...sides, ...projectileSides(request, load, wide)] };
}

/** ± of a parameter, in its unit. */
export function toleranceOf(
  request: Pick<HazardRequest, "tolerances">,
  name: string,
  declared: number,
  otherwise: { share?: number; plus?: number } | undefined,
): number {
  return request.tolerances?.[name] ?? (otherwise?.share ?? 0) * Math.abs(declared) + (otherwise?.plus ?? 0);
}

const LEAST_WHERE_STEEP = 0.01;

const widened = (plus: number, name: string, declared: number, wide: readonly string[]) =>
  plus > 0 && wide.includes(name) ? Math.max(plus, LEAST_WHERE_STEEP * Math.abs(declared)) : plus;

/** What is derived when left empty counts as declared where it has a tolerance of its own. */
function withDerived(request: HazardRequest) {
  const machine: Record<string, unknown> = { ...request.machine };
  for (const { name, derived } of machineKind(request.machine.kind).parameters) {
    if (machine[name] === undefined && derived && (request.tolerances?.[name] ?? 0) > 0) {
      machine[name] = derived(request.machine as Record<string, unknown>);
    }
  }
  return { machine, based: { ...request, machine: machine as unknown as HazardRequest["machine"] } };
}

/** The value nearest to `wanted`, seen from the declared one, that the contract still takes. */
function lastValid(valid: (value: number) => boolean, declared: number, wanted: number): number {
  if (valid(wanted)) return wanted;
  let good = declared;
  let bad = wanted;
  for (let i = 0; i < 40; i++) {
    const middle = (good + bad) / 2;
    if (valid(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

function projectileSides(request: HazardRequest, load: Load, wide: readonly string[]): BoxSide[] {
  const { projectile } = request;
  const rule = request.policy?.projectiles;
  const sides: BoxSide[] = [];
  for (const name of ["mass", "diameter"] as const) {
    const declared = projectile[name];
    const own = toleranceOf(request, name, declared, { share: PROJECTILE_TOLERANCE });
    const plus = widened(own, name, declared, wide);
    let low = Math.max(declared - plus, 1e-4 * declared);
    let high = declared + plus;
    const allowed = rule?.[name];
    if (allowed) {
      low = Math.min(low, allowed.min);
      high = Math.max(high, allowed.max);
    }
    if (load === "piece") {
      const share = rule?.pieceShare ?? 1;
      low *= name === "mass" ? share : Math.cbrt(share);
    }
    if (load === "substitute" && name === "diameter") continue;
    if (high > low) sides.push({ name, of: "projectile", declared, low, high });
  }
  return sides;
}

/** The exact request at a point of the box. */
export function requestAt(box: Box, point: ArrayLike<number>): HazardRequest {
  const { request, sides, load } = box;
  const machine: Record<string, unknown> = { ...request.machine };
  const projectile = { ...request.projectile };
  sides.forEach(({ name, of, declared, low, high }, i) => {
    const u = point[i];
    const value = u < 0 ? declared + u * (declared - low) : declared + u * (high - declared);
    if (of === "machine") machine[name] = value;
    else projectile[name as "mass" | "diameter"] = value;
  });
  // Decides nothing but the nominal throw, and must not refuse a machine whose sling starts a little flatter.
  if (typeof machine.releaseAngle === "number" && sides.length > 0) {
    machine.releaseAngle = Math.min(machine.releaseAngle, 0);
  }
  if (load === "piece") {
    projectile.shape = "irregular";
    projectile.drag = undefined;
    projectile.lift = undefined;
  }
  if (load === "substitute") {
    const density = request.policy?.projectiles?.substituteDensity ?? Number.POSITIVE_INFINITY;
    projectile.diameter = Math.cbrt((6 * projectile.mass) / (Math.PI * density));
    projectile.shape = "smooth-sphere";
    projectile.drag = undefined;
    projectile.lift = undefined;
  }
  return { ...request, machine: machine as unknown as HazardRequest["machine"], projectile };
}

/** The parameters that differ from the declared ones at a point, in their own units. */
export function cornerOf(box: Box, point: ArrayLike<number>): Record<string, number> {
  const corner: Record<string, number> = {};
  const { machine, projectile } = requestAt(box, point);
  box.sides.forEach(({ name, of }, i) => {
    if (point[i] === 0) return;
    corner[name] = (of === "machine" ? machine : projectile)[name as never];
  });
  return corner;
}
