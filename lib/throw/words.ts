/** The sentences of the hazard sheet: assumptions, warnings, what was not modelled. */
import { formatQuantity } from "../units";
import type { Case } from "./case";
import { defaultPolicy, type HazardRequest, type HazardSheet, type Policy } from "./contracts";
import { framesOf } from "./worst/box";
import type { WorstFound } from "./worst/worst";

/** What a sheet takes for granted. */
export function assumptionsOf(request: HazardRequest, search: WorstFound): string[] {
  const { policy = defaultPolicy, machine, tolerances, terrain } = request;
  const out = [
    "The projectile may come free at any instant from the trigger on, not only when it should.",
    gustOf(request) > 0
      ? "Low drag, lift of either sign, and the strongest gust blowing the bad way."
      : "Low drag and lift of either sign, in still air: no wind was entered, so nothing here holds once it blows.",
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
    `${slope ? "Ground that lies below the machine or slopes, as entered" : "Level ground"}, of ${policy.ground} turf for bounce and roll; every first impact multiplied by ${formatQuantity(policy.margin, "ratio", "metric")}.`,
  );
  for (const { name, height } of request.barriers ?? []) {
    out.push(
      `Barrier${name ? ` “${name}”` : ""}, ${height.toFixed(1)} m high, signed for by the safety officer: it stops throws that fly lower than it with all margins, nothing else; pieces of a machine are not stopped.`,
    );
  }
  if (!policy.hangUp) {
    out.push(`Hang-ups are left out of the zone by the safety officer: ${policy.hangUpReason ?? ""}`);
  }
  return out;
}

const gustOf = ({ air }: HazardRequest): number => Math.max(air?.wind?.speed ?? 0, air?.wind?.gust ?? 0);

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

/** What no kind models. */
export const NOT_MODELLED = [
  "How arm, frame and ropes bend and stretch, and what the wind does to the machine. The margin is meant to cover it.",
  "Water, walls, trees and other obstacles: nothing but a barrier that is signed for stops a throw before the ground.",
];

/** What somebody should act on before the day. */
export function warningsOf(
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
      text: "The worst backward throw is a hang-up: the projectile did not come free when it should have and was carried on. It counts unless the safety officer decides otherwise.",
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
