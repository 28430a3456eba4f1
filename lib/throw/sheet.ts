/** The hazard sheet and the quick preview: what lib/throw exists to say. */

import { type Case, nominalReasonOf, nominalThrow, workOut } from "./case";
import { defaultPolicy, type HazardRequest, type HazardSheet, type Policy } from "./contracts";
import { machineKind } from "./machines/registry";
import type { Preview } from "./picture";
import { pictureOf } from "./picture";
import { horizonOf, isSwung, setupOf } from "./setup";
import { swingExtent } from "./swing/energy";
import { CODE_VERSION, INJURY_THRESHOLD } from "./version";
import { framesOf, toleranceOf } from "./worst/box";
import { ExclusionBuilder } from "./worst/exclusion";
import { DECLARED, SEARCH_ALLOWANCE } from "./worst/scan";
import { findWorst, type WorstFound, worstOf } from "./worst/worst";

/** Nominal and worst at the declared dimensions, with what the pages draw. */
export function preview(request: HazardRequest): Preview {
  const worked = workOut(request);
  const { releases, scan, trace } = worked;
  return {
    nominal: nominalThrow(request, releases.nominal),
    nominalReason: nominalReasonOf(request, releases, trace),
    worst: worstOf([{ worked, found: DECLARED }]),
    ceiling: worked.ceiling,
    ...pictureOf(request, worked, scan),
  };
}

/**
 * The whole hazard sheet of one request: nominal, worst, ceiling, exclusion and what was assumed.
 * @param onProgress called with 0 to 1 as the search goes on
 */
export function hazardSheet(
  request: HazardRequest,
  onProgress: (done: number) => void = () => {},
): HazardSheet {
  const policy = request.policy ?? defaultPolicy;
  const search = findWorst(request, (done) => onProgress(0.02 + 0.68 * done));
  const { declared, cases, worst } = search;
  onProgress(0.7);
  const exclusion = new ExclusionBuilder(policy, leanAcrossOf(request));
  for (const { worked } of cases) exclusion.add(worked, 1 + search.allowance);
  onProgress(0.9);
  const scans = cases.map(({ worked }) => worked.scan);
  const impactEnergy = Math.max(...scans.map((scan) => scan.impactEnergy)) * (1 + search.allowance);
  const nominal = nominalThrow(request, declared.releases.nominal);
  const kind = machineKind(request.machine.kind);
  return {
    kind: kind.kind,
    codeVersion: CODE_VERSION,
    nominal,
    nominalReason: nominalReasonOf(request, declared.releases, declared.trace),
    worst: { ...worst, sensitive: search.sensitive },
    ceiling: search.ceiling,
    exclusion: exclusion.finish(sweptRadius(request)),
    apex: Math.max(...scans.map(({ apex }) => apex)) * (1 + search.allowance),
    impact: { energy: impactEnergy, threshold: INJURY_THRESHOLD, exceeds: impactEnergy >= INJURY_THRESHOLD },
    search: {
      instants: declared.releases.list.length,
      flights: scans.reduce((sum, { flights }) => sum + flights, 0),
      horizon: horizonOf(request),
      allowance: SEARCH_ALLOWANCE,
      machines: search.machines,
      varied: search.varied,
      slack: declared.trace?.sawSlack ?? false,
      endStop: declared.trace?.sawStop ?? false,
    },
    assumptions: assumptionsOf(request, search),
    warnings: warningsOf(declared, search.sensitive, nominal?.distance ?? null),
    notModelled: [...kind.notModelled, ...NOT_MODELLED],
  };
}

/** Degrees by which the plane of the throw may lean to a side. */
function leanAcrossOf({ machine, tolerances }: HazardRequest): number {
  const info = machineKind(machine.kind).parameters.find(({ name }) => name === "leanAcross");
  if (!info) return 0;
  const declared = (machine as { leanAcross?: number }).leanAcross ?? 0;
  return Math.abs(declared) + toleranceOf({ tolerances }, "leanAcross", declared, info.tolerance);
}

/** How far arm, sling and a frame that rolls reach to the side and behind the firing point, m. */
function sweptRadius(request: HazardRequest): number {
  if (!isSwung(request.machine)) return 0;
  return swingExtent(setupOf(request, "rolling")).reach;
}

function assumptionsOf(request: HazardRequest, search: WorstFound): string[] {
  const { policy = defaultPolicy, machine, tolerances, terrain } = request;
  const out = [
    "The projectile may come free at any instant from the trigger on, not only when it should.",
    "Low drag, lift of either sign, and the strongest gust blowing the bad way.",
    tolerancesText(search),
  ];
  const assumed = search.varied.filter(({ parameter }) => tolerances?.[parameter] === undefined);
  if (assumed.length > 0) {
    const names = assumed.map(({ parameter }) => parameter).join(", ");
    out.push(`Nobody declared how exactly these are known, so usual tolerances were taken: ${names}.`);
  }
  if (machine.kind === "measured") {
    out.push(
      "Only the speed is known: unless a tolerance of the launch angle was declared, any direction counts.",
    );
  } else if (framesOf(request).length > 1) {
    out.push("The frame stands on wheels: the worse of held and freely rolling was taken for every throw.");
  } else {
    out.push("The frame stands fixed, and the machine is what was declared.");
  }
  out.push(loadText(policy));
  const slope = terrain && (terrain.below > 0 || terrain.slope !== 0 || terrain.crossSlope !== 0);
  out.push(
    `${slope ? "Ground that lies below the machine or falls away, as entered" : "Level ground"}, of ${policy.ground} turf for bounce and roll; every first impact multiplied by ${policy.margin}.`,
  );
  if (!policy.hangUp) {
    out.push(`Hang-ups are left out of the zone by the safety officer: ${policy.hangUpReason ?? ""}`);
  }
  return out;
}

function tolerancesText({ varied, machines, allowance }: WorstFound): string {
  if (varied.length === 0) return "Every dimension and mass was declared exact.";
  const count = `${varied.length} dimensions and masses vary within their tolerances; ${machines} machines inside were tried`;
  return `${count}, and every distance stretched by ${(100 * allowance).toFixed(1)} % for what that may have missed.`;
}

function loadText({ projectiles }: Policy): string {
  const loads = ["The projectile as declared"];
  if (projectiles?.mass || projectiles?.diameter)
    loads.push("every mass and size that the contest's rule allows");
  if (projectiles?.pieceShare !== undefined) {
    loads.push(`pieces of it down to ${Math.round(100 * projectiles.pieceShare)} % of its mass`);
  }
  if (projectiles?.substituteDensity !== undefined) {
    loads.push(`a ball of ${projectiles.substituteDensity} kg/m³ in its place`);
  }
  const rest = loads.length > 1 ? "" : ", whole: no piece of it and nothing denser in its place";
  return `${loads.join(", ")}${rest}.`;
}

const NOT_MODELLED = [
  "How arm, frame and ropes bend and stretch, and what the wind does to the machine. The margin is meant to cover it.",
  "Water, walls, trees and other obstacles: nothing stops a throw before the ground.",
];

function warningsOf(
  declared: Case,
  sensitive: HazardSheet["worst"]["sensitive"],
  nominalDistance: number | null,
): HazardSheet["warnings"] {
  const out: HazardSheet["warnings"] = [];
  for (const { parameter, change } of sensitive) {
    out.push({
      code: "sensitive",
      text: `Half a percent of ${parameter} moves the worst throw by ${Math.round(change * 100)} %: it stands on a knife's edge. Weigh and measure, and treat the distance as a guess.`,
    });
  }
  if (nominalDistance !== null && nominalDistance < 0) {
    out.push({ code: "nominal-backward", text: "As declared, the machine throws backwards." });
  }
  const { scan } = declared;
  const later =
    scan.backward && scan.firstPass.backward ? scan.backward.distance / scan.firstPass.backward.distance : 1;
  if (later > 1.1) {
    out.push({
      code: "hang-up",
      text: "The worst backward throw is a hang-up: the loop did not slip and the projectile whirled on. It counts unless the safety officer decides otherwise.",
    });
  }
  if (lowestCounterweight(declared) < 0) {
    out.push({
      code: "counterweight-ground",
      text: "The counterweight would strike the ground during the swing. Raise the pivot, or shorten the hanger or the short arm.",
    });
  }
  return out;
}

/** Least gap between the counterweight and the ground up to the end of the first pass, m. */
function lowestCounterweight({ trace, releases }: Case): number {
  if (!trace) return Number.POSITIVE_INFINITY;
  const { motion } = trace;
  let lowest = Number.POSITIVE_INFINITY;
  for (const instant of releases.list) {
    if (instant.hangUp) continue;
    const y = trace.stateAt(instant.step, instant.fraction);
    lowest = Math.min(lowest, motion.points(trace.phase(instant.step), y).counterweight[1]);
  }
  return lowest - motion.setup.carrier.counterweightSize;
}
