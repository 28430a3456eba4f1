/** What a safety file lacks: stands on its first page, so that nobody takes paper for leave. */
import type { ConsentGap, RangePlan, SafetyGap, SafetyPlan } from "../api/contracts";
import { isLoosened } from "../zones";
import { planGaps } from "./safety-plan";

export function safetyGaps(
  range: RangePlan,
  plan: SafetyPlan | null,
  consents: readonly ConsentGap[],
  policySet: boolean,
): SafetyGap[] {
  const { wind } = range.air;
  const gaps: SafetyGap[] = [];
  const add = (code: SafetyGap["code"], text: string) => gaps.push({ code, text });
  if (!range.features.some(({ kind }) => kind === "boundary")) add("site", "No boundary is drawn.");
  for (const feature of range.features.filter(isLoosened))
    if (!feature.allowance)
      add(
        "site",
        `${feature.name} is to be protected less than its kind is by itself, and the safety officer has not allowed it: its kind's rule and stand-off hold.`,
      );
  for (const { number, accuracy } of range.firingPoints)
    if (accuracy === 0)
      add(
        "site",
        `Firing point ${number} is taken as exact: nobody has said how far a machine on it may stand from its coordinates.`,
      );
  if (range.firingPoints.length === 0) add("site", "No firing point is laid out.");
  if (range.machines.length + range.unplaced.length === 0) add("machine", "No machine is entered.");
  for (const { name, entrantName } of range.unplaced)
    add("machine", `${name} (${entrantName}) has no firing point and bearing, so it has no zone.`);
  for (const machine of range.machines) {
    if (!machine.exclusion)
      add(
        "sheet",
        `${machine.name} (${machine.entrantName}) has no hazard sheet${machine.reason ? `: ${machine.reason}` : machine.state === "computing" ? " yet: it is being computed." : "."}`,
      );
    for (const { name, touches } of machine.conflicts.filter(({ agreed }) => !agreed))
      add(
        "conflict",
        `The zone of ${machine.name} (${machine.entrantName}) ${touches ? "touches" : "comes nearer than the stand-off to"} ${name}.`,
      );
  }
  if (!policySet) add("policy", "No safety officer has set the policy: it is as the contest was made.");
  if (!wind || Math.max(wind.speed, wind.gust ?? 0) === 0)
    add("wind", "No wind limit is set: every sheet holds for still air only.");
  if (plan) for (const text of planGaps(plan)) add("plan", text);
  else add("plan", "No safety plan is written.");
  for (const { text } of consents) add("consent", text);
  add("signature", "Nobody has signed this paper yet: the lines to sign are on its last page.");
  return gaps;
}
