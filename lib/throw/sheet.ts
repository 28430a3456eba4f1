/** The hazard sheet and the quick preview: what lib/throw exists to say. */

import { type Case, nominalReasonOf, nominalThrow, workOut } from "./case";
import type { HazardRequest, HazardSheet, WorstThrow } from "./contracts";
import { defaultPolicy } from "./contracts";
import { machineKind } from "./machines/registry";
import type { Preview } from "./picture";
import { pictureOf } from "./picture";
import { horizonOf, isSwung, setupOf } from "./setup";
import { carrierPoints } from "./swing/carrier";
import { CODE_VERSION, INJURY_THRESHOLD } from "./version";
import { ExclusionBuilder } from "./worst/exclusion";
import { SEARCH_ALLOWANCE, worstThrow } from "./worst/scan";
import { searchSensitive } from "./worst/sensitivity";

/** Nominal and worst at the declared dimensions, with what the pages draw. */
export function preview(request: HazardRequest): Preview {
  const worked = workOut(request);
  const { releases, scan, trace } = worked;
  return {
    nominal: nominalThrow(request, releases.nominal),
    nominalReason: nominalReasonOf(request, releases, trace),
    worst: worstOf(worked, {}),
    ceiling: worked.ceiling,
    ...pictureOf(request, worked, scan),
  };
}

function worstOf({ scan }: Case, corner: Record<string, number>) {
  return {
    forward: worstThrow(scan.forward, corner),
    backward: worstThrow(scan.backward, corner),
    firstPass: {
      forward: worstThrow(scan.firstPass.forward, corner),
      backward: worstThrow(scan.firstPass.backward, corner),
    },
  };
}

const farther = (a: WorstThrow, b: WorstThrow) => (b.distance > a.distance ? b : a);

/**
 * The whole hazard sheet of one request: nominal, worst, ceiling, exclusion and what was assumed.
 * @param onProgress called with 0 to 1 as the search goes on
 */
export function hazardSheet(
  request: HazardRequest,
  onProgress: (done: number) => void = () => {},
): HazardSheet {
  const policy = request.policy ?? defaultPolicy;
  const declared = workOut(request);
  onProgress(0.1);
  const { sensitive, cases } = searchSensitive(request, declared, (done) => onProgress(0.1 + 0.6 * done));

  let worst = worstOf(declared, {});
  let { apex, impactEnergy, flights } = declared.scan;
  let { ceiling } = declared;
  const exclusion = new ExclusionBuilder(policy, declared.airs);
  exclusion.add(declared);
  for (const { worked, corner } of cases) {
    const other = worstOf(worked, corner);
    worst = {
      forward: farther(worst.forward, other.forward),
      backward: farther(worst.backward, other.backward),
      firstPass: {
        forward: farther(worst.firstPass.forward, other.firstPass.forward),
        backward: farther(worst.firstPass.backward, other.firstPass.backward),
      },
    };
    apex = Math.max(apex, worked.scan.apex);
    impactEnergy = Math.max(impactEnergy, worked.scan.impactEnergy);
    flights += worked.scan.flights;
    if (worked.ceiling.distance > ceiling.distance) ceiling = worked.ceiling;
    exclusion.add(worked);
  }
  onProgress(0.95);
  const nominal = nominalThrow(request, declared.releases.nominal);
  const kind = machineKind(request.machine.kind);
  return {
    kind: kind.kind,
    codeVersion: CODE_VERSION,
    nominal,
    nominalReason: nominalReasonOf(request, declared.releases, declared.trace),
    worst: { ...worst, sensitive },
    ceiling,
    exclusion: exclusion.finish(sweptRadius(request)),
    apex,
    impact: { energy: impactEnergy, threshold: INJURY_THRESHOLD, exceeds: impactEnergy >= INJURY_THRESHOLD },
    search: {
      instants: declared.releases.list.length,
      flights,
      horizon: horizonOf(request),
      allowance: SEARCH_ALLOWANCE,
      slack: declared.trace?.sawSlack ?? false,
      endStop: declared.trace?.sawStop ?? false,
    },
    assumptions: assumptionsOf(request),
    warnings: warningsOf(request, declared, sensitive, nominal?.distance ?? null),
    notModelled: [...kind.notModelled, ...NOT_MODELLED],
  };
}

/** How far arm and sling reach to the side and behind the firing point, m. */
function sweptRadius(request: HazardRequest): number {
  if (!isSwung(request.machine)) return 0;
  const { carrier, slingLength } = setupOf(request);
  return carrier.tipX + slingLength;
}

function assumptionsOf(request: HazardRequest): string[] {
  const policy = request.policy ?? defaultPolicy;
  const out = [
    "The projectile may come free at any instant from the trigger on, not only when it should.",
    "Low drag, lift of either sign, and the strongest gust blowing the bad way.",
    `Level ground of ${policy.ground} turf for bounce and roll; every first impact multiplied by ${policy.margin}.`,
  ];
  if (request.machine.kind === "measured") {
    out.push(
      "Only the speed is known: unless a tolerance of the launch angle was declared, any direction counts.",
    );
  } else {
    out.push("The frame stands fixed and level, and the machine is what was declared.");
  }
  if (!policy.hangUp) {
    out.push(`Hang-ups are left out of the zone by the safety officer: ${policy.hangUpReason ?? ""}`);
  }
  return out;
}

const NOT_MODELLED = [
  "Tolerances of the dimensions: only the masses and the sling are varied, and only where the throw hangs on them. The margin is meant to cover the rest.",
  "Failures: a broken arm, a dropped counterweight, a machine that tips, pieces of frame. They may exceed the zone.",
  "Pieces of a projectile that breaks up, and a denser or smaller one than declared.",
  "Ground that falls away, water and obstacles: the zone is for level ground.",
];

function warningsOf(
  request: HazardRequest,
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
  if (lowestCounterweight(request, declared) < 0) {
    out.push({
      code: "counterweight-ground",
      text: "The counterweight would strike the ground during the swing. Raise the pivot, or shorten the hanger or the short arm.",
    });
  }
  return out;
}

/** Least gap between the counterweight and the ground up to the end of the first pass, m. */
function lowestCounterweight(request: HazardRequest, { trace, releases }: Case): number {
  if (!trace) return Number.POSITIVE_INFINITY;
  const { carrier } = setupOf(request);
  let lowest = Number.POSITIVE_INFINITY;
  for (const instant of releases.list) {
    if (instant.hangUp) continue;
    const y = trace.stateAt(instant.step, instant.fraction);
    lowest = Math.min(lowest, carrierPoints(carrier, y[0], y[2]).counterweight[1]);
  }
  return lowest - carrier.counterweightSize;
}
