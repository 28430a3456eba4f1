/**
 * The largest counterweight, pressure or draw with which a machine fits where it stands: official sheets of a grid of
 * values, then of halvings between the last that does not fit and the first that does. Reach need not fall with the
 * strength, so only the tested values are answered, each with what its zone does. Stored nowhere.
 */
import type { z } from "zod";
import { check, type FieldError } from "../api/check";
import { type Fit, type FitTest, standQuery, type strengthSchema } from "../api/contracts";
import type { Database } from "../db";
import { type Declaration, declarationSchema, type HazardSheet, type Machine, machineKind } from "../throw";
import { broken, standZone, type ZoneFeature } from "../zones";
import { parse } from "./errors";
import type { Asker } from "./roles";
import { mustBeWanted, type Standing, sheetAt, standing } from "./stands";

export type StrengthInfo = z.infer<typeof strengthSchema>;

export interface Strength extends StrengthInfo {
  /** The machine with another value in place of the declared one. */
  with(value: number): Record<string, unknown>;
}

/** What of a machine makes it throw farther, and can be made less without another machine. */
export function strengthOf(machine: Machine): Strength {
  const plain = (
    parameter: string,
    title: string,
    dimension: Strength["dimension"],
    declared: number,
  ): Strength => ({
    parameter,
    title,
    dimension,
    declared,
    with: (value) => ({ ...machine, [parameter]: value }),
  });
  switch (machine.kind) {
    case "hinged-counterweight":
    case "floating-arm":
      return plain("counterweightMass", "Counterweight", "mass", machine.counterweightMass);
    case "fixed-counterweight":
      // The same box, less full: its inertia goes with its mass.
      return {
        ...plain("counterweightMass", "Counterweight", "mass", machine.counterweightMass),
        with: (value) => ({
          ...machine,
          counterweightMass: value,
          counterweightInertia: (machine.counterweightInertia * value) / machine.counterweightMass,
        }),
      };
    case "air-cannon":
      return plain("chamberPressure", "Chamber pressure", "gauge", machine.chamberPressure);
    case "tension":
      return plain("drawForceScale", "Draw force, scale", "ratio", machine.drawForceScale);
    case "torsion":
      return {
        ...plain("torqueScale", "Torque of the springs, scale", "ratio", 1),
        with: (value) => ({
          ...machine,
          preloadTorque: machine.preloadTorque * value,
          stiffness: machine.stiffness * value,
        }),
      };
    case "spinning-arm":
      return plain("spinRate", "Spin rate", "rate", machine.spinRate);
    case "measured":
      return plain("releaseSpeed", "Release speed", "speed", machine.releaseSpeed);
  }
}

export const strengthInfo = ({ parameter, title, dimension, declared }: Strength): StrengthInfo => ({
  parameter,
  title,
  dimension,
  declared,
});

const GRID = [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1];
const STRONGER = [1.1, 1.2, 1.3, 1.5, 1.75, 2];
const HALVINGS = 4;

export interface Tested extends FitTest {
  sheet: HazardSheet | null;
}

/** Three digits, never upwards: nobody weighs finer. */
function rounded(value: number): number {
  const digit = 10 ** (Math.floor(Math.log10(value)) - 2);
  return Number((Math.floor(value / digit + 1e-9) * digit).toPrecision(12));
}

/**
 * All values that were tested, the largest first. `stronger`: look above the declared value where that fits.
 * @param signal when it is aborted no further sheet is begun
 */
export async function testStrengths(
  at: Standing,
  strength: Strength,
  { stronger = true, onProgress = (_: number) => {}, signal }: FitOptions = {},
): Promise<Tested[]> {
  const tested: Tested[] = [];
  let budget = 1 + GRID.length + HALVINGS;
  const test = async (value: number): Promise<Tested> => {
    mustBeWanted(signal);
    const share = (part: number) => Math.min(1, (tested.length + part) / budget);
    const found = await tryValue(at, strength, value, (done) => onProgress(share(done)));
    tested.push(found);
    onProgress(share(0));
    return found;
  };
  let good = await test(strength.declared);
  let bad: Tested | null = null;
  if (good.fits) {
    if (!stronger) return tested;
    budget = 1 + STRONGER.length + HALVINGS;
    for (const share of STRONGER) {
      const next = await test(rounded(strength.declared * share));
      if (next.fits) good = next;
      else bad = next;
      if (bad) break;
    }
  } else {
    bad = good;
    for (const share of GRID) {
      good = await test(rounded(strength.declared * share));
      if (good.fits) break;
      bad = good;
    }
  }
  for (let halving = 0; good.fits && bad && halving < HALVINGS; halving++) {
    const value = rounded((good.value + bad.value) / 2);
    if (value === good.value || value === bad.value) break;
    const next = await test(value);
    if (next.fits) good = next;
    else bad = next;
  }
  onProgress(1);
  return tested.sort((first, second) => second.value - first.value);
}

export interface FitOptions {
  stronger?: boolean;
  onProgress?: (done: number) => void;
  signal?: AbortSignal | undefined;
}

async function tryValue(
  at: Standing,
  strength: Strength,
  value: number,
  onProgress: (done: number) => void,
): Promise<Tested> {
  const nothing = { value, share: value / strength.declared, fits: false, nominal: null };
  const refused = (reason: string): Tested => ({
    ...nothing,
    forward: null,
    backward: null,
    blockers: [],
    reason,
    sheet: null,
  });
  const declared = check(declarationSchema, { ...at.declaration, machine: strength.with(value) });
  if (!declared.ok) return refused(whyNot(at.declaration.machine.kind, declared.errors[0]));
  try {
    const declaration = value === strength.declared ? at.declaration : (declared.value as Declaration);
    const sheet = await sheetAt(at, declaration, { point: at.point, bearing: at.bearing }, onProgress);
    const zone = standZone(at.point, at.bearing, sheet.exclusion.reach);
    const blockers = blockersOf(broken(at.site, zone), at.features);
    const { forward, backward } = sheet.exclusion;
    return {
      ...nothing,
      fits: blockers.length === 0,
      nominal: sheet.nominal?.distance ?? null,
      forward,
      backward,
      blockers,
      reason: null,
      sheet,
    };
  } catch (error) {
    if ((error as Error).name === "EngineRefusal") return refused((error as Error).message);
    throw error;
  }
}

export function blockersOf(
  found: readonly { featureId: string }[],
  features: readonly (ZoneFeature & { name: string })[],
): FitTest["blockers"] {
  const ids = new Set(found.map(({ featureId }) => featureId));
  return features
    .filter(({ id }) => ids.has(id))
    .map(({ id, name, kind }) => ({ featureId: id, name, kind }));
}

const answerOf = ({ sheet: _, ...test }: Tested): FitTest => test;

/** Organisers and safety officers. Throws as `standing` does, and 503 when too many ask. */
export async function fitMachine(
  db: Database,
  actor: Asker,
  slug: string,
  query: unknown,
  options: Omit<FitOptions, "stronger"> = {},
): Promise<Fit> {
  const at = await standing(db, actor, slug, parse(standQuery, query));
  const strength = strengthOf(at.declaration.machine);
  const base = {
    machineId: at.machine.id,
    revision: at.revision.number,
    firingPointId: at.point.id,
    bearing: at.bearing,
  };
  const tested = (await testStrengths(at, strength, options)).map(answerOf);
  return {
    ...base,
    strength: strengthInfo(strength),
    largest: tested.find(({ fits }) => fits) ?? null,
    tested,
  };
}

/** A sentence that names the number of the machine as people call it; limits are in SI units and degrees. */
function whyNot(kind: Machine["kind"], error: FieldError | undefined): string {
  if (!error) return "It cannot be computed.";
  const name = error.field.replace(/^machine\.?/, "");
  const label = machineKind(kind).parameters.find((each) => each.name === name)?.label ?? name;
  return label ? `${label}: ${error.message}` : error.message;
}
