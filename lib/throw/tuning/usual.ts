/** Limits that follow from what a team declared its parts to bear, each with its usual design factor. */
import type { HazardRequest } from "../contracts/request";
import { armStrength, SLING_DESIGN_FACTOR, slingStrength } from "../loads/materials";
import type { Limits } from "./tune";

export function usualLimits({ strengths }: HazardRequest): Limits {
  const out: Limits = {};
  if (strengths?.sling) out.slingPull = slingStrength(strengths.sling).strength / SLING_DESIGN_FACTOR;
  const { material, sections } = strengths?.arm ?? {};
  if (material && sections) out.armReserve = armStrength(material).designFactor;
  const { stroke, force } = strengths?.stop ?? {};
  // A stop that gives like a spring peaks at twice its mean force.
  if (stroke !== undefined && force !== undefined) out.stopEnergy = (stroke * force) / 2;
  return out;
}
