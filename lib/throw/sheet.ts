/** The hazard sheet and the quick preview: what lib/throw exists to say. */

import { nominalReasonOf, nominalThrow, workOut } from "./case";
import { defaultPolicy, type HazardRequest, type HazardSheet, type Policy } from "./contracts";
import type { Fault, Reach } from "./contracts/faults";
import type { Sweep } from "./contracts/loads";
import { faults } from "./faults/faults";
import { loads, sweep, swingLives } from "./loads/loads";
import { machineKind } from "./machines/registry";
import type { Preview } from "./picture";
import { pictureOf } from "./picture";
import { horizonOf, isSwung, setupOf } from "./setup";
import { calibrate } from "./spread/calibration";
import { dispersionChunk } from "./spread/dispersion";
import { summarise } from "./spread/summary";
import { swingExtent } from "./swing/energy";
import { CODE_VERSION, INJURY_THRESHOLD } from "./version";
import { assumptionsOf, NOT_MODELLED, warningsOf } from "./words";
import { meantFrame, toleranceOf } from "./worst/box";
import { ExclusionBuilder } from "./worst/exclusion";
import { DECLARED, type Scan, SEARCH_ALLOWANCE, worstThrow } from "./worst/scan";
import { EXACT, findWorst, type WorkedCase, worstOf } from "./worst/worst";

/** Ordinary throws drawn for every sheet; more are drawn when asked for. */
const DRAWS = 1000;

/** Nominal and worst at the declared dimensions, with what the pages draw. */
export function preview(request: HazardRequest): Preview {
  const frame = meantFrame(request);
  const worked = workOut(request, frame);
  const { releases, scan, trace } = worked;
  return {
    nominal: nominalThrow(request, releases.nominal),
    nominalReason: nominalReasonOf(request, releases, trace),
    worst: worstOf([{ worked, found: { ...DECLARED, frame }, allowances: EXACT }]),
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
  const search = findWorst(request, (done) => onProgress(0.02 + 0.6 * done));
  const { declared, cases, worst } = search;
  onProgress(0.62);
  const lives = swingLives(request, declared);
  const swept = sweep(request, declared, lives);
  const found = faults(request, declared, lives, swept);
  onProgress(0.8);
  const exclusion = new ExclusionBuilder(policy, leanAcrossOf(request), request.barriers);
  for (const { worked } of cases) exclusion.add(worked, 1 + search.allowance);
  for (const fault of found) exclusion.addPieces(pieceReach(fault, policy), fault.code);
  onProgress(0.9);
  const scans = cases.map(({ worked }) => worked.scan);
  const highest = most(cases, ({ apex }) => apex);
  const hardest = most(cases, ({ impactEnergy }) => impactEnergy);
  const impactEnergy = hardest.worked.scan.impactEnergy * (1 + search.allowance);
  const nominal = nominalThrow(request, declared.releases.nominal);
  const borne = loads(request, declared, lives);
  const kind = machineKind(request.machine.kind);
  return {
    kind: kind.kind,
    codeVersion: CODE_VERSION,
    nominal,
    nominalReason: nominalReasonOf(request, declared.releases, declared.trace),
    worst: { ...worst, sensitive: search.sensitive },
    ceiling: search.ceiling,
    exclusion: exclusion.finish(sweptRadius(request, swept)),
    apex: highest.worked.scan.apex * (1 + search.allowance),
    apexBy: worstThrow(highest.worked.scan.apexBy, highest.found, search.allowance),
    impact: {
      energy: impactEnergy,
      threshold: INJURY_THRESHOLD,
      exceeds: impactEnergy >= INJURY_THRESHOLD,
      by: worstThrow(hardest.worked.scan.impactBy, hardest.found, search.allowance),
    },
    faults: found,
    loads: borne,
    sweep: swept,
    dispersion: ordinaryThrows(request),
    calibration: request.throws ? calibrate(request, request.throws, worst.forward.distance) : null,
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
    warnings: [...warningsOf(declared, search.sensitive, nominal?.distance ?? null), ...borne.warnings],
    notModelled: [...kind.notModelled, ...NOT_MODELLED],
  };
}

/** The machine whose scan has most of something. */
function most(cases: readonly WorkedCase[], of: (scan: Scan) => number): WorkedCase {
  return cases.reduce((best, each) => (of(each.worked.scan) > of(best.worked.scan) ? each : best));
}

/** Where ordinary throws land, aimed exactly. */
function ordinaryThrows(request: HazardRequest) {
  const spread = { seed: 1, aim: 0, windTurn: 0 };
  const landings = dispersionChunk(request, spread, 0, DRAWS);
  return summarise(landings, { ...spread, probability: 0.95, crossings: [], points: 0 });
}

/** How far the zone must reach for the pieces of a fault: margin × first impact + their own run-out, m. */
function pieceReach({ reach, rest, allRound }: Fault, { margin }: Policy): Reach {
  const kept = (way: keyof Reach) => margin * reach[way] + Math.max(0, rest[way] - reach[way]);
  const all = { forward: kept("forward"), backward: kept("backward"), side: kept("side") };
  const most = Math.max(all.forward, all.backward, all.side);
  return allRound ? { forward: most, backward: most, side: most } : all;
}

/** Degrees by which the plane of the throw may lean to a side. */
function leanAcrossOf({ machine, tolerances }: HazardRequest): number {
  const info = machineKind(machine.kind).parameters.find(({ name }) => name === "leanAcross");
  if (!info) return 0;
  const declared = (machine as { leanAcross?: number }).leanAcross ?? 0;
  return Math.abs(declared) + toleranceOf({ tolerances }, "leanAcross", declared, info.tolerance);
}

/** How far arm, sling and a frame that rolls reach to the side and behind the firing point, m. */
function sweptRadius(request: HazardRequest, swept: Sweep | null): number {
  const extent = isSwung(request.machine) ? swingExtent(setupOf(request, "rolling")).reach : 0;
  return Math.max(extent, swept?.all.forward ?? 0, swept?.all.backward ?? 0);
}
